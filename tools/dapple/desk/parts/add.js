// Adds things to the set: from the kit, or another one like the one selected. New tables go to the
// end of the file.

const kStool = { diameter_m: 0.34, height_m: 0.4, reflectance: 0.2 };
// [kind, words, keys, name]
const kPlain = [["stand_in", "a figure, standing", { facing: "camera", height_m: 1.7 }], ["stand_in", "a figure, seated on a stool", { pose: "seated", facing: "camera", height_m: 1.7 }],
  ["column", "a stool under a seated figure", kStool, "stool"],
  ["window", "a window, cool light", { size_m: [1.2, 1.2], luminance_cd_m2: 400, cct_k: 7000 }],
  ["meter", "a light meter", { receptor: "dome" }], ["column", "a column", { diameter_m: 0.3 }, "column"],
  ["column", "a table, a box", { size_m: [0.8, 0.6], height_m: 0.75, reflectance: 0.3 }, "table"], ["door", "a door", { wall: "wall_right", centre_m: [0, 1], size_m: [0.9, 2] }]];
const kWalls = ["wall_back", "wall_left", "wall_right", "wall_front", "floor", "ceiling"];
// The lists of what can be added: [id, words, kinds].
const kAdders = [["add-fixture", "add fixture …", ["fixture"]], ["add-glass", "glass …", ["glass"]], ["add-board", "cloth, board …", ["diffuser", "flag", "bounce"]],
  ["add-other", "figure, window …", []], ["add-surface", "wall, floor …", []]];

// "key", "key 2", "key 3": the first that is free.
function freeName(set, kind, wanted) {
  const taken = set.tables.filter((table) => table.kind === kind).map((table) => table.name);
  const shorter = wanted.replace(/ [0-9]+$/, "");
  const stem = taken.includes(shorter) ? shorter : wanted;
  let name = wanted;
  for (let i = 2; taken.includes(name); ++i) name = `${stem} ${i}`;
  return name;
}

function tableText(kind, name, keys) {
  const lines = Object.entries(keys).map(([key, value]) => {
    const isPoint = Array.isArray(value) && !isWhole(key) && value.every((x) => typeof x === "number");
    return `${key} = ${isPoint ? tomlPoint(value) : tomlOf(value)}`;
  });
  return `\n[[${kind}]]\nname = ${JSON.stringify(name)}\n${lines.join("\n")}\n`;
}

// `more`: [kind, name, keys] of a thing that comes with it.
async function addTable(kind, name, keys, more) {
  const set = state.set;
  const free = freeName(set, kind, name);
  let text = set.text + (set.text.endsWith("\n") ? "" : "\n") + tableText(kind, free, keys);
  if (more) text += tableText(more[0], freeName(set, more[0], more[1]), more[2]);
  state.wanted = { kind, name: free };
  showTrouble(await act({ do: "text", text }));
}

// A surface has the name of its wall or its thing. What the set says nothing about yet can be added, and
// what it is made of is then chosen among its keys.
function showWalls(tables) {
  const names = (kind) => tables.filter((table) => table.kind === kind && table.name).map((table) => table.name);
  const isPlainBox = tables.some((table) => table.kind === "room" && table.keys.size_m);
  const all = [...(isPlainBox ? kWalls : []), ...names("column"), ...names("door")];
  const free = all.filter((name) => !names("surface").includes(name));
  const words = (name) => (kWalls.includes(name) ? wallWords(name) : name);
  const options = free.map((name) => new Option(words(name), `wall/${name}`));
  if (!isPlainBox) options.push(new Option("a material of the model", "wall/material"));
  element("add-surface").replaceChildren(new Option("wall, floor …", ""), ...options);
}

// The stool of a new figure that faces the camera.
function stoolWith(figure) {
  const camera = state.drawing?.things.find((thing) => thing.kind === "camera")?.at || [0, 0, 0];
  const way = [figure.position[0] - camera[0], figure.position[2] - camera[2]];
  return { ...kStool, ...seatFor(figure.position, way, figure.height_m) };
}

// `plain`: an entry of kPlain, for what is not in the kit.
function addThing(kind, kitName, plain) {
  const keys = { ...(kitName ? { kit: kitName } : plain[2]), ...placeKeys(kind, plain, kitName) };
  const own = kitName ? nameOfKit(kitName) : plain[3] || kindWord(kind);
  if (kind === "fixture" && "dimmer" in keys) dimmedNew.set(freeName(state.set, kind, own), keys.dimmer);
  return addTable(kind, own, keys, keys.pose === "seated" ? ["column", "stool", stoolWith(keys)] : null);
}

function addAnother(table) {
  const { name, ...keys } = table.keys;
  if (Array.isArray(keys.position)) keys.position = keys.position.map((x, i) => x + (i === 0 ? 0.3 : 0));
  addTable(table.kind, table.name || kindWord(table.kind), keys);
}

function showKit(kit) {
  state.kit = kit;
  const optionsOf = (kind) => kit.entries.filter((entry) => entry.kind === kind).map((entry) => new Option(`${entry.name}: ${entry.about}`, `${kind}/${entry.name}`));
  const group = (words, options) => {
    const node = make("optgroup", { label: words });
    node.append(...options);
    return node;
  };
  for (const [id, words, kinds] of kAdders) {
    if (id === "add-surface") continue; // by the set
    const plain = id === "add-other" ? kPlain : [];
    const options = plain.map((entry, i) => new Option(entry[1], `plain/${i}`));
    const parts = kinds.length > 1 ? kinds.map((kind) => group(kindWord(kind), optionsOf(kind))) : kinds.flatMap(optionsOf);
    element(id).replaceChildren(new Option(words, ""), ...options, ...parts);
  }
  if (kit.problems.length > 0) showTrouble(kit.problems[0]);
}

function listenForAdding() {
  for (const [id, words] of kAdders) {
    const select = make("select", { id, "aria-label": words.replace(" …", "").replace(/^(?!add)/, "add ") });
    select.addEventListener("change", () => {
      const kind = select.value.slice(0, select.value.indexOf("/")), name = select.value.slice(kind.length + 1);
      select.value = "";
      if (kind === "plain") {
        const plain = kPlain[Number(name)];
        addThing(plain[0], "", plain);
      } else if (kind === "wall") {
        addTable("surface", name, { reflectance: 0.3 });
      } else if (kind) {
        addThing(kind, name);
      }
    });
    element("adders").append(select);
  }
  element("copy").addEventListener("click", () => state.selected && addAnother(state.selected));
  element("remove").addEventListener("click", () => {
    const table = state.selected;
    if (table?.address) changer.change(changesToTakeOut(table, state.set.tables, state.drawing));
  });
}
