// The list of what is in the set.

const sameThing = (a, b) => a && b && a.kind === b.kind && a.name === b.name && a.line === b.line;

function makeList(onSelect) {
  const list = element("list");
  let tables = [];
  let selected = null;
  const titleOf = (table) => table.name || kindWord(table.kind);

  function draw() {
    list.replaceChildren(...tables.map((table, i) => {
      const option = document.createElement("div");
      option.setAttribute("role", "option");
      option.id = `thing-${i}`;
      const isSelected = sameThing(table, selected);
      option.setAttribute("aria-selected", isSelected);
      if (isSelected) list.setAttribute("aria-activedescendant", option.id);
      option.append(titleOf(table));
      if (table.name) {
        const kind = document.createElement("small");
        kind.textContent = kindWord(table.kind);
        option.append(kind);
      }
      option.addEventListener("click", () => onSelect(table));
      return option;
    }));
  }

  list.addEventListener("keydown", (event) => {
    const step = { ArrowDown: 1, ArrowRight: 1, ArrowUp: -1, ArrowLeft: -1 }[event.key];
    if (!step || tables.length === 0) return;
    event.preventDefault();
    const at = tables.findIndex((table) => sameThing(table, selected));
    const next = tables[(at + step + tables.length) % tables.length];
    onSelect(next);
    list.querySelector('[aria-selected="true"]')?.scrollIntoView({ block: "nearest" });
  });

  return {
    show(newTables, newSelected) {
      tables = newTables.filter((table) => table.kind !== "title");
      selected = newSelected;
      draw();
    },
  };
}
