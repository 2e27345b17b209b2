// Rows among a thing's keys that say what follows from the set: what the camera is focused on, how wide
// a fixture that focuses shines, why a new lamp is dimmed.

const rowOf = (words, title, ...parts) => make("div", { class: "key" }, make("label", { title }, words), make("div", { class: "parts" }, ...parts));

// The set's text without the camera's focus; null if it is not on a line of its own.
function textWithoutFocus(table) {
  const lines = state.set.text.split("\n");
  let end = lines.findIndex((line, i) => i >= table.line && /^\s*\[/.test(line));
  if (end < 0) end = lines.length;
  const at = lines.findIndex((line, i) => i >= table.line && i < end && /^\s*focus_m\s*=/.test(line));
  return at < 0 ? null : lines.filter((line, i) => i !== at).join("\n");
}

// What the lens is focused on: all, a face, or a distance, which then has a row of its own.
function focusRow(table, changer) {
  if (table.kind !== "camera" || !table.address) return [];
  const now = table.keys.focus_m ?? "";
  const faces = state.set.tables.filter((one) => one.kind === "stand_in" && one.name).map((one) => `${one.name} face`);
  const words = typeof now === "string" && now ? [...new Set([...faces, now])] : faces;
  const text = now === "" ? null : textWithoutFocus(table);
  const choices = [...(now === "" || text !== null ? [["", "everything sharp"]] : []), ...words.map((name) => [name, name]), ["3.0", "a distance"]];
  const chosen = typeof now === "number" ? "3.0" : now;
  const select = make("select", { "aria-label": "focused on" });
  select.append(...choices.map(([value, shown]) => new Option(shown, value, false, value === chosen)));
  select.addEventListener("change", async () => {
    if (select.value === "") return showTrouble(await act({ do: "text", text }));
    const value = select.value === "3.0" ? "3.0" : JSON.stringify(select.value);
    changer.change([{ address: `${table.address}.focus_m`, value }]);
  });
  return [rowOf("focused on", "What is sharp. In the file: focus_m; without it, everything is", select)];
}

// The angle that the focus makes, as the drawings show it.
function focusedBeamRow(table) {
  if (table.kind !== "fixture" || table.keys.focus === undefined) return [];
  return [rowOf("beam angle (°)", `${kHints.beam_angle_deg}. The focus makes it`, make("output", { id: "focused-beam" }, focusedBeamText(table)))];
}
function focusedBeamText(table) {
  const thing = state.drawing?.things.find((one) => one.beam && desk.tableOfThing(one) === table);
  return `${thing ? Math.round(thing.beam.beam_angle * 180 / Math.PI) : "…"}, by the focus`;
}
function showFocusedBeam() {
  const place = element("focused-beam");
  if (place && state.selected) place.textContent = focusedBeamText(state.selected);
}

// What hangs before a fixture goes where it goes, unless it is unticked; for this session.
function riggedRow(table) {
  if (table.kind !== "fixture") return [];
  const row = rowOf("moves with it", "What hangs before it goes where it goes, and turns as it turns. Untick it, or drag with Alt, to move the fixture alone");
  row.id = "rigged";
  fillRigged(row, table);
  return [row];
}
function fillRigged(row, table) {
  const rig = riggedBefore(table, state.set.tables, state.drawing);
  const names = rig.map((one) => rigName(table, one)).join("|");
  row.hidden = rig.length === 0;
  if (row.dataset.shown === names) return;
  row.dataset.shown = names;
  row.querySelector(".parts").replaceChildren(...rig.map((one) => {
    const name = rigName(table, one);
    const box = make("input", { type: "checkbox", checked: !aloneBefore.has(name) });
    box.addEventListener("change", () => aloneBefore[box.checked ? "delete" : "add"](name));
    return make("label", { class: "tick" }, box, ` ${one.name || kindWord(one.kind)}`);
  }));
}
// As it is drawn anew.
function showRigged() {
  const row = element("rigged");
  if (row && state.selected) fillRigged(row, state.selected);
}

// What holds no more beside what is written: a kit's beam angle beside a focus.
function withoutFocusedBeam(table, keys) {
  return table.kind === "fixture" && table.keys.focus !== undefined ? without(keys, "beam_angle_deg") : keys;
}

// Of a lamp that came dimmed, until its dimmer is slid.
const dimmedNew = new Map(); // name → dimmer
function dimmerNote(table, key) {
  if (table.kind !== "fixture" || key !== "dimmer" || dimmedNew.get(table.name) !== table.keys.dimmer) return [];
  return [make("small", { class: "note" }, "Begins dimmed to suit your exposure: full would burn out what it looks at.")];
}
