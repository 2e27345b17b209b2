// The keys of the selected thing, typed or slid.

function rangeInput([low, high, step], value, label, onInput, onChange) {
  const input = document.createElement("input");
  input.type = "range";
  [input.min, input.max, input.step] = [Math.min(low, value), Math.max(high, value), step];
  input.value = value;
  input.setAttribute("aria-label", label);
  input.addEventListener("input", () => onInput(Number(input.value)));
  input.addEventListener("change", () => onChange(Number(input.value)));
  return input;
}

// Lists of whole numbers; a single one is written as it is typed.
const isWhole = (key) => key.endsWith("_px");

const kPointsByName = ["position", "aim", "facing"];

// [value, words] of all that a key may be; null for what is typed.
function choicesOf(kind, key, value, form) {
  const plain = (words) => words.map((word) => [word, word.replaceAll("_", " ")]);
  if (key === "kit") return (state.kit?.entries || []).filter((entry) => entry.kind === kind).map((entry) => [entry.name, `${entry.name}: ${entry.about}`]);
  if (kind === "surface" && key === "name") {
    const isTaken = (wall) => wall !== value && state.set.tables.some((table) => table.kind === kind && table.name === wall);
    return kWalls.includes(value) ? plain(kWalls.filter((wall) => !isTaken(wall))) : null;
  }
  if (key === "clip_to") return plain(state.set.tables.filter((table) => table.kind === "fixture" && table.name).map((table) => table.name));
  const words = kChoices[`${kind}.${key}`]?.filter((word) => word !== "ribbed" || form !== "pane"); // no ribs round it
  return words ? plain(words) : null;
}

// What can be aimed at or stood at by its name.
function showNames() {
  const names = ["camera"];
  for (const table of state.set.tables) {
    if (!table.name || ["region", "room"].includes(table.kind)) continue;
    names.push(table.kind === "surface" && kWalls.includes(table.name) ? table.name.replace("wall_", "") + " wall" : table.name);
    if (table.kind === "stand_in") names.push(`${table.name} face`);
  }
  element("names").replaceChildren(...[...new Set(names)].map((name) => new Option(name, name)));
}

// A small table, such as { value = 300, at_m = 1.9 }: each of its numbers and words by itself.
const isPlainTable = (value) => Boolean(value) && typeof value === "object" && !Array.isArray(value) && Object.values(value).every((x) => ["number", "string"].includes(typeof x));

function tableEditors(label, value, set) {
  const toml = (now) => `{ ${Object.entries(now).map(([part, x]) => `${part} = ${typeof x === "number" && !Number.isInteger(value[part]) ? asFloat(x) : tomlOf(x)}`).join(", ")} }`;
  const now = { ...value };
  return Object.entries(value).map(([part, x]) => {
    const unit = typedUnitOf(part);
    const words = wordsOf(part).filter(Boolean).join(", ");
    const change = (changed) => {
      now[part] = changed;
      set(toml(now), false);
    };
    const name = `${label}, ${words}`;
    if (typeof x === "number") return make("label", { class: "part" }, words, numberInput(x, "any", name, unit, change));
    const input = make("input", { type: "text", value: x, "aria-label": name });
    input.addEventListener("change", () => change(input.value));
    return make("label", { class: "part" }, words, input);
  });
}

// [words, hint] of each of several numbers; null where they say it themselves.
function namesOfNumbers(kind, key, count) {
  if (kPointsByName.includes(key) && count === 3) return kAxisWords;
  if (key === "centre_m" && count === 2) return [["along the wall", "Metres from its middle"], ["up", "Metres above the floor"]];
  if (!["size_m", "panel_m"].includes(key)) return null;
  if (count === 3) return [["width"], ["length"], ["height"]];
  return kind === "column" ? [["width"], ["depth"]] : [["width"], ["height"]];
}
function withNames(inputs, names) {
  if (!names) return inputs;
  return inputs.map((input, i) => make("label", { class: "named", title: names[i][1] || "" }, make("small", {}, names[i][0]), input));
}

// The parts with which one key is edited. `set(toml, isMoving)` changes it.
function editorsOf(table, key, value, set) {
  const kind = table.kind;
  const [label] = wordsOf(key), unit = typedUnitOf(key);
  const wasFloat = typeof value === "number";
  const numberText = (x) => (wasFloat && !Number.isInteger(value) ? asFloat(x) : String(x));
  if (wasFloat) {
    const slide = slideOf(table, key);
    const number = numberInput(value, slide ? slide[2] : "any", label, unit, (x) => set(numberText(x), false));
    if (!slide) return [number];
    const range = rangeInput(slide, value, `${label}, slider`, (x) => {
      number.value = x;
      set(numberText(x), true);
    }, (x) => set(numberText(x), false));
    return [range, number];
  }
  if (typeof value === "boolean") {
    const box = document.createElement("input");
    box.type = "checkbox";
    box.checked = value;
    box.setAttribute("aria-label", label);
    box.addEventListener("change", () => set(String(box.checked), false));
    return [box];
  }
  if (Array.isArray(value) && value.length <= 3 && value.every((x) => typeof x === "number")) {
    const now = [...value];
    const names = value.length === 3 ? ["x", "y", "z"] : ["first", "second"];
    const inputs = value.map((x, i) => numberInput(x, isWhole(key) ? 1 : 0.01, `${label} ${names[i] || ""}`, unit, (changed) => {
      now[i] = changed;
      set(isWhole(key) ? tomlOf(now) : tomlPoint(now), false);
    }));
    return withNames(inputs, namesOfNumbers(kind, key, value.length));
  }
  if (isPlainTable(value)) return tableEditors(label, value, set);
  const choices = typeof value === "string" && choicesOf(kind, key, value, table.keys.form || kitEntryOf(table)?.keys.form);
  if (choices) {
    const select = document.createElement("select");
    select.setAttribute("aria-label", label);
    const all = choices.some(([word]) => word === value) ? choices : [[value, value], ...choices];
    select.append(...all.map(([word, words]) => new Option(words, word, false, word === value)));
    select.addEventListener("change", () => set(JSON.stringify(select.value), false));
    return [select];
  }
  const input = document.createElement("input");
  input.type = "text";
  input.setAttribute("aria-label", label);
  input.value = typeof value === "string" ? value : tomlOf(value);
  if (kPointsByName.includes(key)) input.setAttribute("list", "names");
  input.addEventListener("change", () => {
    set(typeof value === "string" ? JSON.stringify(input.value) : input.value, false);
  });
  return [input];
}

function keyRow(table, key, value, changer) {
  const row = document.createElement("div");
  row.className = "key";
  row.dataset.key = key;
  const [words, unit] = wordsOf(key);
  const label = document.createElement("label");
  label.textContent = unit && !(kPointsByName.includes(key) && typeof value === "string") ? `${words} (${unit})` : words;
  label.title = `${kHints[key] ? `${kHints[key]}. ` : ""}In the file: ${key}`;
  let gesture = changer.newGesture(), carry = null;
  const parts = document.createElement("div");
  parts.className = Array.isArray(value) ? "parts three" : "parts";
  parts.append(...editorsOf(table, key, value, (toml, isMoving) => {
    if (table.kind === "fixture" && key === "form") return changer.change(formChanges(table, JSON.parse(toml)));
    if (key === "kit") return changer.change(kitChanges(table, JSON.parse(toml)));
    if (key === "source") return changer.change(sourceChanges(table, JSON.parse(toml)));
    if (key === "name") state.wanted = { kind: table.kind, name: JSON.parse(toml) };
    carry ??= { ...carriedWith(table, key, state.set.tables, state.drawing), ...(key === "height_m" ? { riders: ridersOf(table, state.set.tables) } : {}) };
    changer.change(changesWithCarried(table, key, toml, carry), gesture, isMoving);
    if (!isMoving) [gesture, carry] = [changer.newGesture(), null];
  }));
  row.append(label, parts, ...dimmerNote(table, key));
  return row;
}

const kitEntryOf = (table) => state.kit?.entries.find((one) => one.kind === table.kind && one.name === table.keys.kit);

// What holds although it is not written: of the kit's entry what can be slid or chosen.
function unwritten(table) {
  const entry = kitEntryOf(table);
  const isEasy = ([key]) => key in kSlides || `${table.kind}.${key}` in kChoices;
  const of = { ...(kAlways[table.kind] || {}), ...Object.fromEntries(Object.entries(entry?.keys || {}).filter(isEasy)) };
  if (table.kind === "glass" && !entry?.keys.surface && (table.keys.ribs ?? entry?.keys.ribs)) of.surface = "ribbed"; // ribs say so
  return withoutFocusedBeam(table, Object.fromEntries(Object.entries(of).filter(([key]) => !(key in table.keys))));
}

function addRow(table, changer) {
  const isOther = (key) => table.kind === "fixture" && ((key === "focus" && "beam_angle_deg" in table.keys) || (key === "beam_angle_deg" && "focus" in table.keys));
  const more = Object.entries(kMore[table.kind] || {}).filter(([key]) => !(key in table.keys) && !(key in unwritten(table)) && !isOther(key));
  if (more.length === 0) return [];
  const row = document.createElement("div");
  row.className = "key add";
  const label = document.createElement("label");
  label.textContent = "more to say";
  const select = document.createElement("select");
  select.setAttribute("aria-label", "More to say");
  select.append(new Option("…", ""), ...more.map(([key]) => new Option(wordsOf(key).join(" ").trim(), key)));
  select.addEventListener("change", () => {
    if (!select.value) return;
    const value = kMore[table.kind][select.value];
    changer.change([{ address: `${table.address}.${select.value}`, value: tomlOf(value) }]);
  });
  row.append(label, select);
  return [row];
}

// Whether the set may have several of its kind.
const isListed = (table) => Boolean(table) && table.address.includes(".");

// What is slid most comes first, the name last.
function keysInOrder(table) {
  const hidden = [...(kJointChoices[table.kind]?.hides || [])];
  if (table.kind === "camera" && typeof table.keys.focus_m !== "number") hidden.push("focus_m"); // a row of its own
  const keys = Object.entries(without({ ...table.keys, ...unwritten(table) }, ...hidden));
  const place = ([key]) => (key === "name" ? 1000 : kFirst.includes(key) ? kFirst.indexOf(key) : 100);
  return keys.sort((a, b) => place(a) - place(b));
}

// "key, lamp"; once where the name is the kind.
function titleOf(table) {
  const kind = kindWord(table.kind);
  if (table.kind === "column" && table.name) return table.name; // a table, a box, a stool
  return !table.name || table.name.includes(kind) ? table.name || kind : `${table.name}, ${kind}`;
}

// Shows the keys of `table`; leaves them alone while the user is typing or sliding there.
function makeKeys(changer) {
  let shownFor = "";
  return {
    show(table) {
      const place = element("keys");
      element("selected").textContent = table ? titleOf(table) : "Choose a thing in the list or in a drawing";
      element("copy").disabled = !isListed(table);
      element("remove").disabled = !isListed(table);
      const identity = table ? `${table.kind}.${table.name}.${table.line}` : "";
      if (changer.isMoving() && identity === shownFor) return;
      const focused = place.contains(document.activeElement) ? document.activeElement.getAttribute("aria-label") : null;
      shownFor = identity;
      if (!table) return place.replaceChildren();
      const rows = keysInOrder(table).map(([key, value]) => keyRow(table, key, value, changer));
      place.replaceChildren(...focusRow(table, changer), ...jointRow(table, changer), ...whichRow(table, changer), ...focusedBeamRow(table), ...rows, ...riggedRow(table), ...addRow(table, changer));
      if (focused) place.querySelector(`[aria-label="${CSS.escape(focused)}"]`)?.focus();
    },
  };
}
