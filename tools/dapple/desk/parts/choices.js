// Choices that stand for several keys of a thing at once, so that they fit together. Each is one change.

const kCct = { led: [2000, 10000, 5600], tungsten: [1500, 3600, 3200], daylight: [4000, 25000, 5600] }; // low, high, usual

// A fixture's colour, where the new source cannot have the old one.
function sourceChanges(table, source) {
  const keys = { ...unwritten(table), ...table.keys };
  const [low, high, usual] = kCct[source] || [0, Infinity];
  const changes = [{ address: `${table.address}.source`, value: JSON.stringify(source) }];
  if (typeof keys.cct_k === "number" && (keys.cct_k < low || keys.cct_k > high)) changes.push({ address: `${table.address}.cct_k`, value: String(usual) });
  if (source !== "led" && table.keys.duv) changes.push({ address: `${table.address}.duv`, value: "0.0" });
  return changes;
}

// A fixture's form, with the size or the angle that it needs.
function formChanges(table, form) {
  const keys = { ...(kitEntryOf(table)?.keys || {}), ...table.keys };
  const changes = [{ address: `${table.address}.form`, value: JSON.stringify(form) }];
  if (form === "panel" && !keys.panel_m) changes.push({ address: `${table.address}.panel_m`, value: "[0.3, 0.2]" });
  if (form === "spot" && !keys.beam_angle_deg && !keys.beam_range_deg && !keys.photometry) changes.push({ address: `${table.address}.beam_angle_deg`, value: "40" });
  return changes;
}

// Another thing of the kit in its place. A name that was the kit's own goes with it, unless other things
// are said by that name.
const nameOfKit = (kit) => kit.replaceAll("-", " ");
function kitChanges(table, kit) {
  const old = table.keys.kit ? nameOfKit(table.keys.kit) : "";
  const isKits = Boolean(old) && (table.name === old || new RegExp(`^${old} [0-9]+$`).test(table.name));
  const isSaid = state.set.text.split(JSON.stringify(table.name)).length > 2;
  const change = { address: `${table.address}.kit`, value: JSON.stringify(kit) };
  if (!isKits || isSaid) return [change];
  const name = freeName(state.set, table.kind, nameOfKit(kit));
  state.wanted = { kind: table.kind, name };
  return [change, { address: `${table.address}.name`, value: JSON.stringify(name) }];
}

// A fixture or a glass that is of no kit yet: one of the kit in its place, with its place, aim and
// dimmer.
function whichRow(table, changer) {
  if (!["fixture", "glass"].includes(table.kind) || table.keys.kit || !table.address || !state.kit) return [];
  const entries = state.kit.entries.filter((entry) => entry.kind === table.kind);
  const select = make("select", { "aria-label": "which" });
  select.append(new Option("its own", ""), ...entries.map((entry) => new Option(`${entry.name}: ${entry.about}`, entry.name)));
  const kept = ["aim", "dimmer", "stand", "turn_deg", "tilt_deg", "clip_to"];
  select.addEventListener("change", () => {
    if (!select.value) return;
    const own = Object.fromEntries(Object.entries(table.keys).filter(([key]) => kept.includes(key)));
    changer.change(wholeTable(table, { kit: select.value, ...own }));
  });
  return [rowOf("which", "Another one of the kit in its place. In the file: kit", select)];
}

// The slider of a key, as far as this thing can be slid.
function slideOf(table, key) {
  const range = key === "cct_k" ? kCct[{ ...unwritten(table), ...table.keys }.source] : null;
  return range ? [Math.max(kSlides.cct_k[0], range[0]), Math.min(kSlides.cct_k[1], range[1]), kSlides.cct_k[2]] : kSlides[key];
}

const inOrder = (pair, isTall) => [...pair].sort((a, b) => (isTall ? a - b : b - a));
const without = (keys, ...names) => Object.fromEntries(Object.entries(keys).filter(([key]) => !names.includes(key)));
// In place of the whole table, but for its name and its place.
const wholeTable = (table, keys) => [{ address: table.address, value: tomlOf(without(keys, "name", "position")) }];

// `of(keys)`: what is chosen; null where there is nothing to choose. `put(table, choice)`: the changes.
// `hides`: the keys that the choice shows already.
const kJointChoices = {
  camera: {
    words: "format", choices: () => [["landscape", "landscape: wide"], ["portrait", "portrait: tall"]], hides: [],
    of: ({ sensor_mm: [width, height] = [36, 24] }) => (height > width ? "portrait" : "landscape"),
    put: ({ address, keys }, choice) => [
      { address: `${address}.sensor_mm`, value: tomlOf(inOrder(keys.sensor_mm || [36, 24], choice === "portrait")) },
      { address: `${address}.frame_px`, value: tomlOf(inOrder(keys.frame_px || [960, 640], choice === "portrait")) }],
  },
  column: {
    words: "section", choices: () => [["round", "round"], ["square", "with corners"]], hides: [],
    of: (keys) => (typeof keys.diameter_m === "number" ? "round" : Array.isArray(keys.size_m) ? "square" : null),
    put(table, choice) {
      const { diameter_m: across, size_m: size } = table.keys;
      const section = choice === "round" ? { diameter_m: tidy((size[0] + size[1]) / 2) } : { size_m: [across, across] };
      return wholeTable(table, { ...without(table.keys, "diameter_m", "size_m"), ...section });
    },
  },
  surface: {
    words: "made of", hides: ["kit"],
    choices: () => [["", "paint"], ...(choicesOf("surface", "kit") || [])],
    of: ({ kit = "" }) => kit,
    put: (table, choice) => wholeTable(table, choice ? { kit: choice } : { reflectance: 0.3 }),
  },
};

function jointRow(table, changer) {
  const joint = kJointChoices[table.kind];
  const now = joint?.of(table.keys) ?? null;
  if (now === null || !table.address) return [];
  const choices = joint.choices();
  const all = choices.some(([word]) => word === now) ? choices : [[now, now], ...choices];
  const select = make("select", { "aria-label": joint.words });
  select.append(...all.map(([word, words]) => new Option(words, word, false, word === now)));
  select.addEventListener("change", () => select.value !== now && changer.change(joint.put(table, select.value)));
  return [make("div", { class: "key" }, make("label", {}, joint.words), make("div", { class: "parts" }, select))];
}
