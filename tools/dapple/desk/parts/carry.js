// What goes where a thing goes: what stands on a table goes with the table, and the cloth, the flag and
// the glass that hang in a fixture's beam close before it go with the fixture, by its shift and its
// turn. What leaves its table goes down to what is below.

const kRigged = ["diffuser", "flag", "glass"];
const kRigReach = 1.5;   // m, the farthest from its fixture
const kRigShare = 0.6;   // of the way to what the fixture looks at; farther on it belongs to that
const kUpright = 0.98;   // of a beam's direction; a steeper one has no turn
const aloneBefore = new Set(); // "key/silk": stays where it is when the key is moved

const minus = (a, b) => a.map((x, i) => x - b[i]);
const plus = (a, b) => a.map((x, i) => x + b[i]);
const times = (a, s) => a.map((x) => x * s);
const dot = (a, b) => a.reduce((sum, x, i) => sum + x * b[i], 0);
const cross = (a, b) => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const unit = (a) => times(a, 1 / (Math.hypot(...a) || 1));

const drawnAs = (table, drawing) => drawing?.things.find((thing) => desk.tableOfThing(thing)?.address === table.address);
const floorOf = (drawing) => drawing?.room.box?.[0][1] ?? 0;

// Half of its greatest size, m.
function reachOfTable({ kind, keys }) {
  const own = Array.isArray(keys.size_m) ? Math.max(...keys.size_m) / 2 : null;
  return own ?? reachOfKit(kind, keys.kit);
}
// From the base of a glass to its middle, m.
const halfHeightOf = ({ kind, keys }) => (kind === "glass" ? kHalfHeights[keys.form ?? String(keys.kit ?? "").split("-")[0]] ?? 0.13 : 0);

// How far before `lamp`, as it is drawn, a thing hangs in its beam, in metres; null where it does not.
function hangsBefore(lamp, table, drawing) {
  if (!lamp?.aim || !isPlace(table.keys.position)) return null;
  const middle = plus(table.keys.position, [0, halfHeightOf(table), 0]);
  const way = minus(lamp.aim, lamp.at), axis = unit(way), from = minus(middle, lamp.at);
  const along = dot(from, axis);
  if (along <= 0.02 || along > Math.min(kRigReach, kRigShare * Math.hypot(...way))) return null;
  const half = Math.min(1.2, Math.max(lamp.beam?.field_angle || 0, lamp.beam?.beam_angle || 0) / 2);
  return Math.hypot(...minus(from, times(axis, along))) <= along * Math.tan(half) + reachOfTable(table) ? along : null;
}
// What hangs before the fixture and no nearer before another one.
function riggedBefore(table, tables, drawing) {
  const lamp = drawnAs(table, drawing);
  if (table.kind !== "fixture" || !lamp?.aim) return [];
  const others = tables.filter((other) => other.kind === "fixture" && other !== table).map((other) => drawnAs(other, drawing));
  const isInAir = (one) => one.kind !== "glass" || (one.keys.position?.[1] > floorOf(drawing) + kOnTop && !topUnder(one, tables));
  return tables.filter((one) => {
    if (!kRigged.includes(one.kind) || !one.address || one.keys.clip_to || !isInAir(one)) return false;
    const along = hangsBefore(lamp, one, drawing);
    return along !== null && others.every((other) => (hangsBefore(other, one, drawing) ?? Infinity) >= along);
  });
}
const rigName = (table, one) => `${table.name}/${one.kind}/${one.name}`;

// Takes points from a fixture at `at` that looks to `aim` to where they are before it at `to`, looking
// to `toAim`; `yaw`: the turn about the upright, in degrees.
function rigidMove(at, aim, to, toAim) {
  const frameOf = (way) => {
    const ahead = unit(way), right = unit(cross(ahead, [0, 1, 0]));
    return [ahead, right, cross(right, ahead)];
  };
  const ways = [minus(aim, at), minus(toAim, to)];
  const isSteep = ways.some((way) => Math.abs(unit(way)[1]) > kUpright);
  if (isSteep) return { point: (p) => plus(p, minus(to, at)), yaw: 0 };
  const [before, after] = ways.map(frameOf);
  return {
    point: (p) => before.reduce((sum, axis, i) => plus(sum, times(after[i], dot(minus(p, at), axis))), to),
    yaw: ways.map((way) => Math.atan2(way[0], way[2]) * 180 / Math.PI).reduce((a, b) => b - a),
  };
}

// The top on which a thing of the set stands; undefined without one.
const topUnder = ({ keys, address }, tables) => topsOf(tables).find((top) => top.table.address !== address && isPlace(keys.position) && isOver(top, keys.position) && Math.abs(keys.position[1] - top.at[1]) <= kOnTop);

// What is under a place: { y, words }; of tables without those of `except`.
function groundUnder(place, tables, except, drawing) {
  const below = topsOf(tables).filter((top) => !except.some(({ address }) => address === top.table.address) && isOver(top, place) && top.at[1] <= place[1] + kOnTop);
  const top = below.reduce((best, one) => (best && best.at[1] >= one.at[1] ? best : one), null);
  return top ? { y: top.at[1], words: top.table.name || "a table" } : { y: floorOf(drawing), words: "the floor" };
}

// What goes with `table` when its `key`, a point, changes; taken when the change begins.
function carriedWith(table, key, tables, drawing) {
  const isMove = key === "position", isPlain = table && isPlace(table.keys.position);
  const riders = isMove && table ? ridersOf(table, tables) : [];
  const rig = table && ["position", "aim"].includes(key) ? riggedBefore(table, tables, drawing).filter((one) => !aloneBefore.has(rigName(table, one))) : [];
  const lamp = rig.length > 0 ? drawnAs(table, drawing) : null;
  return {
    table, key, riders, rig, lamp: lamp && { at: [...lamp.at], aim: [...lamp.aim] }, from: isPlain ? [...table.keys.position] : null,
    stood: isMove && isPlain && table.kind !== "camera" ? topUnder(table, tables) ?? null : null,
    drawnAt: new Map([...riders, ...rig].map((one) => [one.address, [...(drawnAs(one, drawing)?.at ?? one.keys.position)]])),
  };
}

// Where a thing that stood on a table comes to be when the hand has it at `to`, and on what: { to, on }.
function settledFrom({ table, riders, stood, from }, to, tables, drawing) {
  if (!stood || isOver(stood, to) || Math.abs(to[1] - from[1]) > kOnTop) return { to, on: "" };
  const ground = groundUnder([to[0], from[1], to[2]], tables, [table, ...riders], drawing);
  return { to: [to[0], ground.y, to[2]], on: ground.words };
}

const pointChange = ({ address }, key, point) => ({ address: `${address}.${key}`, value: tomlPoint(point) });

// What goes along when the key is `to`: { changes, steps: by address, in metres }. `isAlone`: what hangs
// before it stays.
function carryTo({ key, riders, rig, lamp, from }, to, isAlone = false) {
  const steps = new Map(), changes = [];
  if (key === "position" && from) {
    const step = minus(to, from);
    for (const one of riders) steps.set(one.address, step);
    changes.push(...ridingChanges(riders, step));
  }
  if (!lamp) return { changes, steps };
  const move = isAlone ? rigidMove(lamp.at, lamp.aim, lamp.at, lamp.aim) : key === "position" ? rigidMove(lamp.at, lamp.aim, to, lamp.aim) : rigidMove(lamp.at, lamp.aim, lamp.at, to);
  for (const one of rig) {
    const up = [0, halfHeightOf(one), 0], { position, aim, turn_deg: turn = 0 } = one.keys;
    const place = minus(move.point(plus(position, up)), up);
    steps.set(one.address, minus(place, position));
    changes.push(pointChange(one, "position", place));
    if (isPlace(aim)) changes.push(pointChange(one, "aim", move.point(aim)));
    if (one.kind === "glass" && typeof turn === "number" && (one.keys.turn_deg !== undefined || Math.abs(move.yaw) > 0.05)) changes.push({ address: `${one.address}.turn_deg`, value: asFloat(tidy((turn + move.yaw + 540) % 360 - 180)) });
  }
  return { changes, steps };
}

// What goes with a thing when one of its keys is typed or slid; `carry` is of the time before.
function changesWithCarried(table, key, toml, carry) {
  const change = { address: `${table.address}.${key}`, value: toml };
  if (key === "height_m" && table.kind === "column") {
    const step = [0, Number(toml) - table.keys.height_m, 0];
    return step.every(Number.isFinite) ? [change, ...ridingChanges(carry.riders, step)] : [change];
  }
  const point = key === "position" || key === "aim" ? placeIn(toml) : null;
  if (!point) return [change];
  if (key === "aim") return [change, ...carryTo(carry, point).changes];
  if (!carry.from) return [change];
  const settled = settledFrom(carry, point, state.set.tables, state.drawing);
  if (settled.on) tellStands([table], settled.on);
  return [settled.on ? pointChange(table, key, settled.to) : change, ...carryTo(carry, settled.to).changes];
}
function placeIn(toml) {
  try {
    const point = JSON.parse(toml);
    return isPlace(point) ? point : null;
  } catch {
    return null;
  }
}

function tellStands(tables, on) {
  const names = tables.map((table) => table.name || kindWord(table.kind));
  tellDone(`${names.join(", ")} ${names.length > 1 ? "stand" : "stands"} on ${on} now; Undo takes it back.`);
}

// The changes that take a thing out; what stands on it goes down first, with what stands on that.
function changesToTakeOut(table, tables, drawing) {
  const riders = ridersOf(table, tables);
  const direct = riders.filter((rider) => topUnder(rider, tables)?.table === table);
  const down = direct.flatMap((rider) => {
    const own = [rider, ...ridersOf(rider, tables)];
    const { y, words } = groundUnder(rider.keys.position, tables, [table, ...own], drawing);
    tellStands([rider], words);
    return ridingChanges(own, [0, y - rider.keys.position[1], 0]);
  });
  return [...down, { address: table.address, value: "false" }];
}
