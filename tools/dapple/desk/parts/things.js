// The list of what is in the set.

const sameThing = (a, b) => a && b && a.kind === b.kind && a.name === b.name && a.line === b.line;

function makeList(onSelect) {
  const list = element("list");
  let tables = [];
  let selected = null;

  function draw() {
    list.replaceChildren(...tables.map((table, i) => {
      const option = document.createElement("div");
      option.setAttribute("role", "option");
      option.id = `thing-${i}`;
      const isSelected = sameThing(table, selected);
      option.setAttribute("aria-selected", isSelected);
      if (isSelected) list.setAttribute("aria-activedescendant", option.id);
      const kind = kindWord(table.kind);
      option.append(make("span", {}, kWalls.includes(table.name) ? wallWords(table.name) : table.name || kind));
      if (table.name && !table.name.includes(kind) && table.kind !== "column") option.append(make("small", {}, kind));
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

  // In its own pane, without moving the page.
  function bringIntoSight() {
    const pane = list.closest(".things").getBoundingClientRect();
    const top = element("adders").getBoundingClientRect().bottom; // stays while the list is scrolled
    const option = list.querySelector('[aria-selected="true"]')?.getBoundingClientRect();
    if (!option) return;
    const low = option.bottom - pane.bottom + 8, high = option.top - top - 4;
    if (low > 0 || high < 0) list.closest(".things").scrollTop += low > 0 ? low : high;
  }

  return {
    show(newTables, newSelected) {
      const isOther = !sameThing(newSelected, selected);
      tables = newTables.filter((table) => table.kind !== "title");
      selected = newSelected;
      draw();
      if (isOther) bringIntoSight();
    },
  };
}
