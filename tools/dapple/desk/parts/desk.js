// Joins the parts: what the program tells, what the user does.

const state = { set: null, drawing: null, selected: null, wanted: null, isByHand: false };

// What was wrong with the last thing done, and what is wrong with the set. Either may be told first.
const troubles = { done: "", set: "" };
function showTroubleOf(source, line) {
  troubles[source] = line;
  const isFrame = element("picture").hasAttribute("src");
  const waits = isFrame ? [make("span", {}, "The frame waits until this is mended.")] : [];
  element("trouble").hidden = !troubles.done && !troubles.set;
  if (troubles.done) element("trouble").replaceChildren(troubles.done);
  else element("trouble").replaceChildren(...mistakeLines(mistakes, leadTo), ...waits);
  element("no-frame").hidden = isFrame || !troubles.set;
  if (state.set) showFileName(state.set);
}
function showFileName(set) {
  const mistake = troubles.set ? ", with a mistake" : "";
  element("file").textContent = set.has_file ? `${set.file}${set.saved ? (mistake ? `, saved${mistake}` : "") : ", not saved"}` : "not saved yet";
}
let problems = [], mistakes = []; // in the set, as the program and as the page says them
function showTrouble(line) {
  showTroubleOf("done", line);
}
function press(id, onPress) {
  element(id).addEventListener("click", async () => showTrouble((await onPress()) || ""));
}

const changer = makeChanger({
  onTrouble: showTrouble,
  show: (changes, isMoving) => mixer.slide(changes, isMoving),
  onSent: (version) => mixer.sent(version),
});
const sameKind = (kind, name) => (other) => other.kind === kind && (kind === "camera" || (other.name || "") === name);
const desk = {
  changer,
  drawing: () => state.drawing,
  tables: () => state.set?.tables,
  tableOf: (kind, name) => state.set?.tables.find(sameKind(kind, name)),
  // Things and tables of one name, or without one, go together in the file's order.
  tableOfThing(thing) {
    const isColumn = (other) => other.kind === "column"; // one without a name is called otherwise there
    const isSame = thing.kind === "column" ? isColumn : sameKind(thing.kind, thing.name);
    const place = state.drawing.things.filter(isSame).indexOf(thing);
    return state.set?.tables.filter(isSame)[Math.max(0, place)];
  },
  isSelected: (thing) => state.selected && state.selected === desk.tableOfThing(thing),
  select: (kind, name) => selectTable(desk.tableOf(kind, name)),
  selectTable: (table) => selectTable(table),
  selectThing: (thing) => selectTable(desk.tableOfThing(thing)),
  redraw: () => views.forEach((view) => view.draw()),
};
desk.bounds = makeBounds(() => {
  desk.redraw();
  seek.showBounds();
});
const seek = makeSeek(desk);
desk.closeSeek = seek.close;
const mixer = makeMixer(element("stage"), desk);
const frame = makeFrame((version) => mixer.onPicture(version));
const keys = makeKeys(changer);
const list = makeList((table) => selectTable(table));
const views = [makeView(element("above"), false, desk), makeView(element("side"), true, desk)];
const file = makeFile();
const client = makeClient(changer);
const cameraModes = makeCameraModes(desk);
const meterMode = makeMeterMode(desk, mixer);
const hand = makeHand(element("stage"), {
  look: { words: "Look", hint: "What the hand does in the frame is chosen above it." },
  round: cameraModes.round,
  pan: cameraModes.pan,
  meter: meterMode,
  region: makeRegionMode(desk),
});
const judge = makeJudge(desk, hand.marks);
const doubts = makeDoubts(desk);

const isOn = (id) => element(id).getAttribute("aria-pressed") === "true";
// Lights of a film of a moment ago are of use only for these; of the fixture that is chosen to begin
// with, as soon as the user turns to its settings.
const needsLight = () => (state.selected?.kind === "fixture" && state.isByHand) || isOn("client") || isOn("stops") || isOn("limits") || hand.mode() === "meter";
mixer.need(needsLight);
mixer.listen(() => {
  meterMode.refresh(false);
  showWaiting();
});
// The maps are made of the frame's light, which comes a moment after its first picture.
function showWaiting() {
  element("waiting").hidden = mixer.matrices() !== null || !(isOn("stops") || isOn("limits"));
}

// Within the pane of the settings, which may be scrolled and may have the judgement above them.
function bringToTop(head) {
  const pane = head.closest(".keys");
  pane.scrollTop += head.getBoundingClientRect().top - pane.getBoundingClientRect().top - 12;
}
function turnTo() {
  state.isByHand = true;
  mixer.load();
}
element("keys").addEventListener("focusin", turnTo);
function selectTable(table) {
  if (table) turnTo();
  if (!table || table === state.selected) return;
  state.selected = table;
  list.show(state.set.tables, table);
  keys.show(table);
  markMistakes(mistakes, false);
  bringToTop(element("selected"));
  seek.refresh();
  desk.redraw();
  mixer.load();
}

// To the thing and the field of a mistake.
function leadTo(mistake) {
  selectTable(mistake.table && state.set.tables.find((table) => sameThing(table, mistake.table)));
  markMistakes(mistakes, true);
}
function readMistakes() {
  mistakes = problems.map((problem) => mistakeOf(problem, doubts.tableAt));
  showTroubleOf("set", mistakes.map(({ words }) => words).join("\n"));
}
function showMistakes(news) {
  problems = news;
  readMistakes();
  markMistakes(mistakes, true);
  if (troubles.set) followTables();
  leadToFirst();
}
// A set that is opened with a mistake has no frame yet: its thing is chosen, once.
let hasLed = false;
function leadToFirst() {
  const isFirst = !hasLed && state.set && troubles.set && !element("picture").hasAttribute("src");
  if (!isFirst || !mistakes[0].table) return;
  hasLed = true;
  leadTo(mistakes[0]);
}

function notice(id, text, buttons) {
  element(id)?.remove();
  if (!text) return;
  const box = make("div", { class: "notice", id }, text, ...buttons.map(([words, what]) => {
    const button = make("button", { type: "button" }, words);
    button.addEventListener("click", async () => (what instanceof Function ? what() : showTrouble(await act({ do: what }))));
    return button;
  }));
  element("notices").append(box);
}

function showNotices(set) {
  notice("outside", set.changed_outside ? "Another program has changed the same lines of the set file as you." : "", [["Take the file as it is now", "reload"], ["Write mine over it", "save_over"]]);
  notice("not-safe", set.not_safe ? `What you do is not safe on the disc yet. It goes on, and is kept as soon as it can be written. ${set.not_safe}` : "", [["Save it elsewhere …", file.askName]]);
  notice("left-over", set.left_over ? "An earlier desk ended without saving." : "", [["Take up what was unsaved", "take_left_over"], ["Drop it", "drop_left_over"]]);
  const undo = set.merged === "now" ? [["Undo them", "undo"]] : []; // else Undo would undo something else
  notice("merged", set.merged ? "Another program has changed the set file. Its changes are here now, beside yours." : "", [...undo, ["Good", "merge_seen"]]);
}

function showSet(set) {
  state.set = set;
  const old = state.selected;
  const isWanted = (table) => state.wanted && table.kind === state.wanted.kind && table.name === state.wanted.name;
  const wanted = set.tables.find(isWanted);
  if (wanted) state.wanted = null;
  const before = old && `${old.kind}/${old.name}`;
  const first = old ? null : set.tables.find((table) => table.kind === "fixture"); // what is slid most
  state.selected = wanted || set.tables.find((table) => sameThing(table, old)) || set.tables.find((table) => old && table.address === old.address) || first || null;
  const title = /^\s*title\s*=\s*"(.*)"/m.exec(set.text);
  element("title").textContent = title ? title[1] : set.file;
  document.title = `${set.saved ? "" : "• "}${element("title").textContent}`;
  readMistakes();
  element("undo").disabled = !set.undo;
  element("redo").disabled = !set.redo;
  element("save").disabled = set.saved && !set.changed_outside;
  showNotices(set);
  list.show(set.tables, state.selected);
  showWalls(set.tables);
  if (troubles.set) followTables();
  seek.showTables(set.tables);
  seek.refresh();
  showNames();
  keys.show(state.selected);
  markMistakes(mistakes, false);
  const isRenamed = state.selected && old && state.selected.address === old.address;
  if (state.selected && before !== `${state.selected.kind}/${state.selected.name}` && !isRenamed) bringToTop(element("selected"));
  leadToFirst();
  client.show(set.tables);
  file.showSet(set);
  mixer.onSet();
  showWaiting();
  desk.redraw();
}

// While the set has a mistake.
function followTables() {
  if (!state.drawing || !state.set || views.some((view) => view.isDragging())) return;
  state.drawing = followed(state.drawing, state.set.tables);
  views.forEach((view) => view.show(state.drawing));
}

function showDrawing(drawing) {
  if (views.some((view) => view.isDragging())) return;
  state.drawing = drawing;
  for (const thing of drawing.things) if (thing.kind === "column") thing.name = desk.tableOfThing(thing)?.name || "";
  views.forEach((view) => view.show(drawing));
  judge.drawMarks();
  showFocusedBeam();
  showRigged();
}

press("undo", () => {
  tellNothing(); // what it said is no longer so
  return act({ do: "undo" });
});
press("redo", () => act({ do: "redo" }));
press("save", () => file.save());
function toggle(id, onToggle) {
  element(id).addEventListener("click", () => {
    element(id).setAttribute("aria-pressed", !isOn(id));
    onToggle(isOn(id));
  });
}
function showMode(id, other) {
  toggle(id, (isOnNow) => {
    if (isOnNow) element(other).setAttribute("aria-pressed", false);
    element("legend").hidden = !isOn("stops");
    element("limits-legend").hidden = !isOn("limits");
    mixer.setMode(isOn("stops") ? "stops" : isOn("limits") ? "limits" : "picture");
    showWaiting();
  });
}
showMode("stops", "limits");
showMode("limits", "stops");
toggle("theme", (isLight) => document.documentElement.classList.toggle("light", isLight));
toggle("client", (isClient) => {
  document.body.classList.toggle("client", isClient);
  hand.choose("look");
  mixer.load();
});
if (matchMedia("(prefers-color-scheme: light)").matches) element("theme").click();
drawScale(element("scale"));
// One view in the place of both.
for (const button of document.querySelectorAll(".larger")) {
  button.addEventListener("click", () => {
    const figure = button.closest("figure");
    const isLarger = figure.classList.toggle("large");
    button.setAttribute("aria-pressed", isLarger);
    for (const other of document.querySelectorAll(".views figure")) other.hidden = isLarger && other !== figure;
  });
}

document.addEventListener("keydown", (event) => {
  if (!(event.ctrlKey || event.metaKey) || event.altKey) return;
  const key = event.key.toLowerCase();
  const isTyping = event.target.matches('input[type="text"]');
  const what = { z: event.shiftKey ? "redo" : "undo", y: "redo", s: "save" }[key];
  if (!what || (isTyping && what !== "save") || document.querySelector("dialog[open]")) return;
  event.preventDefault();
  element(what).click();
});

listenForAdding();
listenForNews({
  kit(news) {
    showKit(news);
    if (state.set) keys.show(state.selected);
  },
  set: showSet,
  versions: (news) => file.showVersions(news),
  drawing: showDrawing,
  seek: (news) => seek.show(news),
  picture: (news) => frame.show(news),
  film(news) {
    mixer.onFilm(news);
    judge.onFilm(news);
    if (!news.moving) meterMode.refresh(true);
  },
  problems(news) {
    showMistakes(news.problems);
  },
  doubts: (news) => doubts.show(news),
}, (isLost) => notice("lost", isLost ? "The program does not answer. Start dapple desk again with the same set: what was not saved is kept beside it." : "", []));
