// Tables, boxes and columns: their tops, and what stands on them and goes where they go.

const kOnTop = 0.02;       // m, from a top to what counts as standing on it
const kTableHeight = 1.3;  // m; higher ones are columns
const kLeastTable = 0.2;   // m across

// [along x, along z], m; null if it is not written plainly.
function footprintOf({ size_m: size, diameter_m: across }) {
  if (typeof across === "number") return [across, across];
  return Array.isArray(size) && size.length === 2 && size.every((x) => typeof x === "number") ? size : null;
}

// { table, at: the middle of its top, size } of a table of the set; null where that is not plain.
function topOf(table) {
  const { position, height_m: height } = table.keys;
  const size = footprintOf(table.keys);
  if (table.kind !== "column" || !isPlace(position) || typeof height !== "number" || !size) return null;
  return { table, at: [position[0], position[1] + height, position[2]], size };
}
const topsOf = (tables) => tables.map(topOf).filter(Boolean);
const isOver = ({ at, size }, p) => Math.abs(p[0] - at[0]) <= size[0] / 2 && Math.abs(p[2] - at[2]) <= size[1] / 2;

// The tables that stand on `table`, and what stands on those.
function ridersOf(table, tables) {
  const top = topOf(table);
  if (!top) return [];
  const isOn = ({ kind, keys, address }) => kind !== "camera" && address && isPlace(keys.position) && isOver(top, keys.position) && Math.abs(keys.position[1] - top.at[1]) <= kOnTop;
  const riders = tables.filter((other) => other !== table && isOn(other));
  return riders.flatMap((rider) => [rider, ...ridersOf(rider, tables)]);
}

// The changes that take `riders` by `step` metres.
const ridingChanges = (riders, step) => riders.map(({ address, keys }) => ({ address: `${address}.position`, value: tomlPoint(keys.position.map((x, i) => x + step[i])) }));

// The table on which a new glass stands: the chosen one, the one that the chosen glass stands on, or
// one in the picture while no beam is chosen. A pane stands in a beam unless a table is chosen. Null
// without one.
function tableForGlass(drawing, isPane) {
  const chosen = state.selected;
  const tops = topsOf(state.set.tables);
  const carries = (table) => chosen && ridersOf(table, state.set.tables).includes(chosen);
  const own = tops.find(({ table }) => table === chosen) ?? (isPane ? null : tops.find(({ table }) => carries(table)));
  if (own || isPane) return own;
  if (!drawing || (state.isByHand && chosen?.kind === "fixture")) return null;
  const sitters = state.set.tables.filter(({ kind, keys }) => kind === "stand_in" && isPlace(keys.position)).map(({ keys }) => keys.position);
  const isFree = ({ at }) => !sitters.some((p) => Math.hypot(p[0] - at[0], p[2] - at[2]) < 0.6); // no stool
  const isTable = ({ table, size }) => table.keys.height_m <= kTableHeight && Math.min(...size) >= kLeastTable;
  return tops.find((top) => isTable(top) && isFree(top) && isInPicture(top.at, 0, drawing)) ?? null;
}

// Where on a top there is room: its middle, or beside what stands there already.
function placeOnTop(top) {
  const others = ridersOf(top.table, state.set.tables).map(({ keys }) => keys.position);
  const room = (p) => Math.min(Infinity, ...others.map((q) => Math.hypot(p[0] - q[0], p[2] - q[2])));
  const shares = [0, -0.3, 0.3];
  const places = shares.flatMap((z) => shares.map((x) => [top.at[0] + x * top.size[0], top.at[1], top.at[2] + z * top.size[1]]));
  return places.find((p) => room(p) > 0.18) ?? places.reduce((best, p) => (room(p) > room(best) ? p : best));
}
