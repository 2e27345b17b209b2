// Mistakes in the set in the words of the page: the thing, its field, and what is wrong, where the
// program names the file's lines and keys. A click on one leads to its field.

const kMostTold = 3; // of the mistakes in the set

// "beam_angle_deg" in a message → "beam angle"
function pageWords(message) {
  return message.replace(/\[\[(\w+)\]\]/g, (all, kind) => `a ${kindWord(kind)}`)
    .replaceAll("[x, y, z]", "three numbers").replace(/\bwall_(left|right|back|front)\b/g, "$1 wall")
    .replace(/\b[a-z]+(_[a-z0-9]+)+\b/g, (key) => (key in kKinds ? kindWord(key) : wordsOf(key)[0]));
}

// { table, key, words } of a problem of the program.
function mistakeOf(problem, tableAt) {
  const table = problem.file === state.set?.file && problem.line > 0 ? tableAt(problem.line) : null;
  if (!table) return { table: null, key: "", words: problem.text };
  const keys = problem.key.replace(/^[a-z_ ]+ "[^"]*"/, "").split(": ").slice(1);
  const field = keys.map((key) => wordsOf(key)[0]).join(", ");
  return { table, key: keys[0] ?? "", words: `${titleOf(table)}: ${field ? field + " " : ""}${pageWords(problem.message)}` };
}

// The field is marked; `isNew`: it is brought into sight too.
function markMistakes(mistakes, isNew) {
  const pane = element("keys").closest(".keys");
  element("keys").querySelectorAll(".key.wrong").forEach((row) => row.classList.remove("wrong"));
  const rows = mistakes.filter(({ table, key }) => key && sameThing(table, state.selected)).map(({ key }) => element("keys").querySelector(`[data-key="${CSS.escape(key)}"]`)).filter(Boolean);
  rows.forEach((row) => row.classList.add("wrong"));
  if (!isNew || rows.length === 0) return;
  const [row, view] = [rows[0].getBoundingClientRect(), pane.getBoundingClientRect()];
  const low = row.bottom - view.bottom + 8, high = row.top - view.top - 8;
  if (high < 0 || low > 0) pane.scrollTop += high < 0 ? high : Math.min(low, high);
}

// The lines of the bar; `lead(mistake)` goes to the thing.
function mistakeLines(mistakes, lead) {
  const lines = mistakes.slice(0, kMostTold).map((mistake) => {
    if (!mistake.table) return make("span", {}, mistake.words);
    const line = make("button", { type: "button", title: "Show it" }, mistake.words);
    line.addEventListener("click", () => lead(mistake));
    return line;
  });
  return mistakes.length > kMostTold ? [...lines, make("span", {}, `and ${mistakes.length - kMostTold} more`)] : lines;
}
