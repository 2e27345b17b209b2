// What can hardly be meant about the set, by the thing it is about. It comes while the set rests, and
// a screen reader hears of it only when it is not what it was.

function makeDoubts(desk) {
  const box = element("doubts"), list = element("doubt-list");
  let told = "[]";

  // The table that the line of the set file belongs to.
  function tableAt(line) {
    const before = (desk.tables() || []).filter((table) => table.line > 0 && table.line <= line);
    return before.reduce((last, table) => (!last || table.line > last.line ? table : last), null);
  }
  // Without the thing, which is said above it.
  function wordsOf(doubt) {
    const key = doubt.key.replace(/^[a-z_ ]+ "[^"]*"(: |$)/, "");
    return `${key ? key + ": " : ""}${doubt.message}${doubt.guess ? " (a guess)" : ""}`;
  }
  function headOf(table) {
    if (!table) return make("strong", {}, "the set");
    const kind = kindWord(table.kind);
    const button = make("button", { type: "button" }, table.name && table.name !== kind ? `${table.name}, ${kind}` : kind);
    button.addEventListener("click", () => desk.select(table.kind, table.name || ""));
    return button;
  }
  const open = element("doubts-open");
  open.addEventListener("click", () => {
    box.open = true;
    const pane = box.closest(".things");
    pane.scrollTop = 0;
    pane.scrollIntoView({ block: "nearest" });
    element("doubt-count").focus();
  });
  function draw(doubts) {
    const groups = new Map();
    for (const doubt of doubts) {
      const table = tableAt(doubt.line);
      const place = table?.address ?? "";
      if (!groups.has(place)) groups.set(place, { table, lines: [] });
      groups.get(place).lines.push(wordsOf(doubt));
    }
    list.replaceChildren(...[...groups.values()].map(({ table, lines }) =>
      make("li", {}, headOf(table), make("ul", {}, ...lines.map((line) => make("li", {}, line))))));
  }

  return {
    tableAt,
    show(doubts) {
      const now = JSON.stringify(doubts.map((doubt) => [doubt.key, doubt.message]));
      draw(doubts); // lines of the file may have moved
      open.hidden = box.hidden = doubts.length === 0;
      open.textContent = element("doubt-count").textContent = `Worth a second look: ${doubts.length}`;
      if (now === told) return;
      told = now;
      element("doubts-told").textContent = doubts.length === 0 ? "Nothing is worth a second look any more." : `Worth a second look: ${doubts.length}. ${wordsOf(doubts[0])}`;
    },
  };
}
