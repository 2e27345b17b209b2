// Adds things to the set: from the kit, or another one like the one selected. New tables go to the
// end of the file.

const kPlain = [["stand_in", "a lay figure", { turn_deg: 0, height_m: 1.7 }], ["meter", "a light meter", { receptor: "dome" }],
  ["flag", "a flag", { size_m: [0.3, 0.5] }], ["column", "a column", { diameter_m: 0.3 }],
  ["surface", "how a wall looks", { reflectance: 0.3 }],
  ["window", "a window", { wall: "wall_left", centre_m: [0, 1.5], size_m: [1.2, 1.2], luminance_cd_m2: 20, cct_k: 7000 }],
  ["door", "a door", { wall: "wall_right", centre_m: [0, 1], size_m: [0.9, 2] }]];
const kWalls = ["wall_back", "wall_left", "wall_right", "wall_front", "floor", "ceiling"];
const kInBeam = ["glass", "diffuser", "flag"];
const kNoPlace = ["surface", "window", "door", "region"];
// From the base of a glass to its middle, m; 0.13 for what is not here.
const kHalfHeights = { demijohn: 0.2, bottle: 0.15, tumbler: 0.05, carafe: 0.13, ball: 0.05, rod: 0.15, pane: 0.15 };
const kAims = ["fixture", "diffuser", "flag", "bounce"];

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
    const isPoint = Array.isArray(value) && !key.endsWith("_px") && value.every((x) => typeof x === "number");
    return `${key} = ${isPoint ? tomlPoint(value) : tomlOf(value)}`;
  });
  return `\n[[${kind}]]\nname = ${JSON.stringify(name)}\n${lines.join("\n")}\n`;
}

// In the beam of the chosen fixture, or of the first: { lamp, point }. Null without one.
function placeInBeam(drawing) {
  const lamps = drawing?.things.filter((thing) => thing.kind === "fixture" && thing.aim) || [];
  const lamp = lamps.find((thing) => desk.isSelected(thing)) || lamps[0];
  if (!lamp) return null;
  const way = lamp.aim.map((x, i) => x - lamp.at[i]);
  const size = Math.hypot(...way) || 1;
  const along = Math.min(0.45, 0.4 * size);
  return { lamp, point: lamp.at.map((x, i) => x + way[i] * along / size) };
}

// Between the camera and what it looks at: `share` of the way, `across` metres to the side. Lamps and
// boards stand outside the frame, on the side that has less light; a meter before what is looked at.
const kShares = { fixture: 0.45, bounce: 0.8, meter: 0.9 };

function placeBeside(kind, drawing) {
  const camera = drawing?.things.find((thing) => thing.kind === "camera");
  const aim = camera?.aim || [0, 1.2, 0];
  const from = camera?.at || [0, 1.5, 2];
  const way = from.map((x, i) => aim[i] - x);
  const size = Math.hypot(way[0], way[2]) || 1;
  const side = [way[2] / size, 0, -way[0] / size];
  const share = kShares[kind] || 0.65;
  let across = kind === "meter" ? 0 : 0.5;
  if (["fixture", "bounce"].includes(kind)) {
    const lamps = (drawing?.things || []).filter((thing) => thing.kind === "fixture");
    const lean = lamps.reduce((sum, lamp) => sum + Math.sign(side.reduce((dot, x, i) => dot + x * (lamp.at[i] - from[i]), 0)), 0);
    across = (Math.tan(drawing?.lens[0] || 0.35) * size * share + 0.5) * (lean > 0 ? -1 : 1);
  }
  const place = from.map((x, i) => x + way[i] * share + side[i] * across);
  if (kind === "fixture") place[1] = aim[1] + 0.6;
  return { place, aim, from };
}

// Glass, cloths and flags stand in a beam, all else beside what the camera looks at.
function placeFor(kind, drawing, name) {
  const beam = kInBeam.includes(kind) ? placeInBeam(drawing) : null;
  if (beam) {
    const half = kHalfHeights[(name || "").split("-")[0]] ?? 0.13;
    const point = kind === "glass" ? [beam.point[0], beam.point[1] - half, beam.point[2]] : beam.point;
    return { position: point, aim: beam.lamp.at };
  }
  const { place, aim, from } = placeBeside(kind, drawing);
  const box = drawing?.room.box;
  if (["stand_in", "column"].includes(kind)) place[1] = box ? box[0][1] : 0;
  // Inside the room, with some air around.
  const inside = box ? place.map((x, i) => (i === 1 ? Math.min(x, box[1][1] - 0.2) : Math.min(box[1][i] - 0.3, Math.max(box[0][i] + 0.3, x)))) : place;
  return { position: inside, aim, facing: from };
}

async function addTable(kind, name, keys) {
  const set = state.set;
  const free = freeName(set, kind, name);
  const text = set.text + (set.text.endsWith("\n") ? "" : "\n") + tableText(kind, free, keys);
  state.wanted = { kind, name: free };
  showTrouble(await act({ do: "text", text }));
}

function addFromKit(kind, name) {
  const keys = { ...(name ? { kit: name } : kPlain.find(([k]) => k === kind)[2]) };
  if (!kNoPlace.includes(kind)) {
    const place = placeFor(kind, state.drawing, name);
    keys.position = place.position;
    if (kAims.includes(kind)) keys.aim = place.aim;
    if (kind === "meter") keys.facing = place.facing;
  }
  // A surface has the name of its wall: the first that nothing is said about.
  const isFree = (wall) => !state.set.tables.some((table) => table.kind === "surface" && table.name === wall);
  const own = kind === "surface" ? kWalls.find(isFree) || kWalls[0] : name ? name.replaceAll("-", " ") : kindWord(kind);
  addTable(kind, own, keys);
}

function addAnother(table) {
  const { name, ...keys } = table.keys;
  if (Array.isArray(keys.position)) keys.position = keys.position.map((x, i) => x + (i === 0 ? 0.3 : 0));
  addTable(table.kind, table.name || kindWord(table.kind), keys);
}

function showKit(kit) {
  const select = element("add");
  const groups = new Map();
  for (const entry of kit.entries.filter((item) => kKinds[item.kind])) { // not what is only packed
    if (!groups.has(entry.kind)) groups.set(entry.kind, []);
    groups.get(entry.kind).push(new Option(`${entry.name}: ${entry.about}`, `${entry.kind}/${entry.name}`));
  }
  const plain = document.createElement("optgroup");
  plain.label = "others";
  plain.append(...kPlain.map(([kind, words]) => new Option(words, `${kind}/`)));
  select.replaceChildren(new Option("from the kit …", ""), ...[...groups].map(([kind, options]) => {
    const group = document.createElement("optgroup");
    group.label = kindWord(kind);
    group.append(...options);
    return group;
  }), plain);
  if (kit.problems.length > 0) showTrouble(kit.problems[0]);
}

function listenForAdding() {
  element("add").addEventListener("change", () => {
    const [kind, name] = element("add").value.split("/");
    element("add").value = "";
    if (kind) addFromKit(kind, name);
  });
  element("copy").addEventListener("click", () => state.selected && addAnother(state.selected));
  element("remove").addEventListener("click", () => {
    const table = state.selected;
    if (table?.address) changer.change([{ address: table.address, value: "false" }]);
  });
}
