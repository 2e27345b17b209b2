// Joins the parts: what the program tells, what the user does.

const state = { set: null, drawing: null, selected: null, wanted: null };
const changer = makeChanger(showTrouble);
const seek = makeSeek();
const frame = makeFrame();
const keys = makeKeys(changer);
const list = makeList((table) => selectTable(table));
const desk = {
  changer,
  tableOf: (kind, name) => state.set?.tables.find((table) => table.kind === kind && (kind === "camera" || table.name === name)),
  isSelected: (thing) => state.selected && state.selected === desk.tableOf(thing.kind, thing.name),
  select: (kind, name) => selectTable(desk.tableOf(kind, name)),
  redraw: () => views.forEach((view) => view.draw()),
};
const views = [makeView(element("above"), false, desk), makeView(element("side"), true, desk)];
const history = { undo: () => act({ do: "undo" }), redo: () => act({ do: "redo" }) };

function selectTable(table) {
  if (!table || table === state.selected) return;
  state.selected = table;
  list.show(state.set.tables, table);
  keys.show(table);
  seek.refresh();
  desk.redraw();
}

// What was wrong with the last thing done, and what is wrong with the set. Either may be told first.
const troubles = { done: "", set: "" };
function showTroubleOf(source, line) {
  troubles[source] = line;
  const shown = troubles.done || troubles.set;
  element("trouble").hidden = !shown;
  element("trouble").textContent = shown;
}
function showTrouble(line) {
  showTroubleOf("done", line);
}

function notice(id, text, buttons) {
  element(id)?.remove();
  if (!text) return;
  const box = document.createElement("div");
  box.className = "notice";
  box.id = id;
  box.append(text, ...buttons.map(([words, what]) => {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = words;
    button.addEventListener("click", async () => showTrouble(await act({ do: what })));
    return button;
  }));
  element("notices").append(box);
}

function showSet(set) {
  state.set = set;
  const old = state.selected;
  const isWanted = (table) => state.wanted && table.kind === state.wanted.kind && table.name === state.wanted.name;
  const wanted = set.tables.find(isWanted);
  if (wanted) state.wanted = null;
  state.selected = wanted || set.tables.find((table) => sameThing(table, old)) || set.tables.find((table) => old && table.kind === old.kind && table.name === old.name) || null;
  const title = /^\s*title\s*=\s*"(.*)"/m.exec(set.text);
  element("title").textContent = title ? title[1] : set.file;
  document.title = `${set.saved ? "" : "• "}${element("title").textContent}`;
  element("file").textContent = `${set.file}${set.saved ? "" : ", not saved"}`;
  element("undo").disabled = !set.undo;
  element("redo").disabled = !set.redo;
  element("save").disabled = set.saved && !set.changed_outside;
  notice("outside", set.changed_outside ? "Another program has changed the set file." : "", [["Take the file as it is now", "reload"], ["Write mine over it", "save_over"]]);
  notice("left-over", set.left_over ? "An earlier desk ended without saving." : "", [["Take up what was unsaved", "take_left_over"], ["Drop it", "drop_left_over"]]);
  list.show(set.tables, state.selected);
  seek.showTables(set.tables);
  keys.show(state.selected);
  desk.redraw();
}

function showDrawing(drawing) {
  if (views.some((view) => view.isDragging())) return;
  state.drawing = drawing;
  views.forEach((view) => view.show(drawing));
}

function press(id, onPress) {
  element(id).addEventListener("click", async () => showTrouble((await onPress()) || ""));
}
press("undo", history.undo);
press("redo", history.redo);
press("save", () => act({ do: "save" }));
function toggle(id, node, name) {
  element(id).addEventListener("click", () => element(id).setAttribute("aria-pressed", node.classList.toggle(name)));
}
toggle("theme", document.documentElement, "light");
toggle("client", document.body, "client");
if (matchMedia("(prefers-color-scheme: light)").matches) element("theme").click();

document.addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const key = event.key.toLowerCase();
  const isTyping = event.target.matches('input[type="text"], input[type="number"]');
  const what = { z: event.shiftKey ? "redo" : "undo", y: "redo", s: "save" }[key];
  if (!what || (isTyping && what !== "save")) return;
  event.preventDefault();
  element(what).click();
});

listenForAdding();
listenForNews({
  kit: showKit,
  set: showSet,
  drawing: showDrawing,
  seek: (news) => seek.show(news),
  picture: (news) => frame.show(news),
  problems: (news) => showTroubleOf("set", news.problems[0] || ""),
}, (isLost) => notice("lost", isLost ? "The program does not answer. Start dapple desk again with the same set: what was not saved is kept beside it." : "", []));
