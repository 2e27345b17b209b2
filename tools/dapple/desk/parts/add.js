// Adds things to the set: from the kit, or another one like the one selected. New tables go to the
// end of the file.

const kPlain = [["stand_in", "a lay figure", { turn_deg: 0, height_m: 1.7 }], ["meter", "a light meter", { receptor: "dome" }],
  ["flag", "a flag", { size_m: [0.3, 0.5] }], ["column", "a column", { diameter_m: 0.3 }]];
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

// A free place in the picture: beside the middle of what the camera looks at.
function placeFor(kind, drawing) {
  const camera = drawing?.things.find((thing) => thing.kind === "camera");
  const aim = camera?.aim || [0, 1.2, 0];
  const from = camera?.at || [0, 1.5, 2];
  const way = from.map((x, i) => aim[i] - x);
  const size = Math.hypot(way[0], way[2]) || 1;
  const side = [way[2] / size, 0, -way[0] / size];
  const isLamp = kind === "fixture";
  const place = from.map((x, i) => x + way[i] * (isLamp ? 0.45 : 0.65) + side[i] * (isLamp ? 1 : 0.5));
  if (["stand_in", "column"].includes(kind)) place[1] = drawing?.room.box ? drawing.room.box[0][1] : 0;
  if (isLamp) place[1] = aim[1] + 0.6;
  return { position: place, aim, facing: from };
}

async function addTable(kind, name, keys) {
  const set = state.set;
  const free = freeName(set, kind, name);
  const text = set.text + (set.text.endsWith("\n") ? "" : "\n") + tableText(kind, free, keys);
  state.wanted = { kind, name: free };
  showTrouble(await act({ do: "text", text }));
}

function addFromKit(kind, name) {
  const place = placeFor(kind, state.drawing);
  const keys = { ...(name ? { kit: name } : kPlain.find(([k]) => k === kind)[2]), position: place.position };
  if (kAims.includes(kind)) keys.aim = place.aim;
  if (kind === "meter") keys.facing = place.facing;
  addTable(kind, name ? name.replaceAll("-", " ") : kindWord(kind), keys);
}

function addAnother(table) {
  const { name, ...keys } = table.keys;
  if (Array.isArray(keys.position)) keys.position = keys.position.map((x, i) => x + (i === 0 ? 0.3 : 0));
  addTable(table.kind, table.name || kindWord(table.kind), keys);
}

function showKit(kit) {
  const select = element("add");
  const groups = new Map();
  for (const entry of kit.entries) {
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
