// Where a thing that is added stands to begin with: where it does something that the frame shows.

const kInBeam = ["glass", "diffuser", "flag"];
const kNoPlace = ["window", "door", "region"];
// From the base of a glass to its middle, m; 0.13 for what is not here.
const kHalfHeights = { demijohn: 0.2, bottle: 0.15, tumbler: 0.05, carafe: 0.13, ball: 0.05, rod: 0.15, pane: 0.15 };
const kLampsApart = 0.8;  // m, between the stands of two fixtures
const kNearSitter = 0.5;  // m, from what the camera looks at to the beam of a fixture that lights it
const kAims = ["fixture", "diffuser", "flag", "bounce"];
// A seated figure, in shares of its height (scene/boards_and_figures/figure_places.h).
const kSeatHeight = 0.235, kFeetBeforeSeat = 0.265;

// Half of the greatest size of a thing of the kit, m.
function reachOfKit(kind, kitName) {
  const keys = state.kit?.entries.find((entry) => entry.kind === kind && entry.name === kitName)?.keys;
  return Math.max(...[keys?.size_m, keys?.height_m, 0.3].flat().filter(Number.isFinite)) / 2;
}

// Whether the lens sees something that reaches `reach` metres around a point.
function isInPicture(point, reach, drawing) {
  const camera = drawing.things.find((thing) => thing.kind === "camera");
  if (!camera?.aim) return false;
  const way = camera.aim.map((x, i) => x - camera.at[i]);
  const [dx, dy, dz] = point.map((x, i) => x - camera.at[i]);
  const size = Math.hypot(way[0], way[2]) || 1;
  const along = (dx * way[0] + dz * way[2]) / size;
  const across = Math.abs(dx * way[2] - dz * way[0]) / size;
  const above = Math.abs(dy - along * way[1] / size);
  return along > 0 && across < along * Math.tan(drawing.lens[0]) + reach && above < along * Math.tan(drawing.lens[1]) + reach;
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
  const isSitter = kind === "stand_in" && !drawing?.things.some((thing) => thing.kind === kind); // the first figure
  const share = isSitter ? 0.8 : kShares[kind] || 0.65;
  const at = (share, across) => from.map((x, i) => x + way[i] * share + side[i] * across);
  if (kind === "fixture" || kind === "bounce") return { place: placeOfLight(kind, drawing, { at, from, side, aim, size, share }), aim, from };
  return { place: at(share, kind === "meter" || isSitter ? 0 : 0.5), aim, from };
}

// On the other side of the camera from the key, and no closer to another fixture than stands allow.
function placeOfLight(kind, drawing, { at, from, side, aim, size, share }) {
  const lamps = (drawing?.things || []).filter((thing) => thing.kind === "fixture");
  const sideOf = (lamp) => Math.sign(dot(side, minus(lamp.at, from)));
  const onSitter = lamps.filter((lamp) => lamp.aim && fromBeam(lamp, aim) < kNearSitter);
  const key = onSitter.find((lamp) => lamp.name === "key") ?? onSitter[0] ?? lamps[0];
  const lean = onSitter.reduce((sum, lamp) => sum + sideOf(lamp), 0);
  const way = key ? -(Math.sign(lean) || sideOf(key) || 1) : 1;
  const room = (p) => Math.min(Infinity, ...lamps.map((lamp) => Math.hypot(lamp.at[0] - p[0], lamp.at[2] - p[2])));
  const places = [way, -way].flatMap((sign) => [share, share - 0.2, share + 0.15, share - 0.35].map((along) => {
    const place = at(along, sign * (Math.tan(drawing?.lens[0] || 0.35) * size * along + 0.9));
    if (kind === "fixture") place[1] = aim[1] + 0.6;
    return insideRoom(place, drawing);
  }));
  return places.find((place) => room(place) >= kLampsApart) ?? places.reduce((best, place) => (room(place) > room(best) ? place : best));
}

// Inside the room, with some air around.
function insideRoom(place, drawing) {
  const box = drawing?.room.box;
  return box ? place.map((x, i) => (i === 1 ? Math.min(x, box[1][1] - 0.2) : Math.min(box[1][i] - 0.3, Math.max(box[0][i] + 0.3, x)))) : place;
}

// Glass, cloths and flags stand in a beam, all else beside what the camera looks at.
function placeFor(kind, drawing, name) {
  const beam = kInBeam.includes(kind) ? placeInBeam(drawing, kind, reachOfKit(kind, name), widthOfKit(kind, name)) : null;
  if (beam) {
    if (beam.cut) tellDone(`It stands in the beam of ${beam.cut} too: there is no room before ${beam.lamp.name} alone.`);
    const half = kHalfHeights[(name || "").split("-")[0]] ?? 0.13;
    const point = kind === "glass" ? [beam.point[0], beam.point[1] - half, beam.point[2]] : beam.point;
    return { position: point, aim: beam.lamp.at, turn: facingTurn(point, beam.lamp.at) };
  }
  const { place, aim, from } = placeBeside(kind, drawing);
  if (["stand_in", "column"].includes(kind)) place[1] = floorOf(drawing);
  return { position: insideRoom(place, drawing), aim, facing: from };
}

// The turn of a thing at `from` that faces `to`: 0 is along z, anticlockwise from above.
const facingTurn = (from, to) => Math.round(Math.atan2(to[0] - from[0], to[2] - from[2]) * 180 / Math.PI);

// What is looked at first: a figure's face by its name, which the lamp then follows.
function faceToLight() {
  const figure = state.set.tables.find((table) => table.kind === "stand_in" && table.name);
  return figure ? `${figure.name} face` : null;
}

// What a meter at the sitter must read for the camera's setting, in lx (C = 250 lx); null where the
// camera's keys are not plain.
function meteredLux() {
  const keys = desk.tableOf("camera", "")?.keys || {};
  const [f, shutter, iso] = [keys.f_number ?? 4, keys.shutter_s ?? 1 / 60, keys.iso ?? 800].map((value) => {
    const [above, below] = String(value).replace(/^f\//, "").split("/").map(Number);
    return below ? above / below : above;
  });
  const lux = 250 * f * f / (shutter * iso);
  return Number.isFinite(lux) && lux > 0 ? lux : null;
}

// The dimmer that keeps a new fixture of the kit from burning out what it looks at: the camera's
// setting, and a stop less beside other fixtures. Tungsten is not dimmed below a third: it would be
// too warm. The flux of a spot is that of E1 and E2 with n = 4, for a narrow beam: 1.064 π (beam/2)²
// times its peak.
function easyDimmer(kitName, from, to) {
  const keys = state.kit?.entries.find((entry) => entry.kind === "fixture" && entry.name === kitName)?.keys;
  const range = keys?.output_range_lm;
  const lumens = keys?.output_lm ?? (range ? (range[0] + range[1]) / 2 : null);
  const metered = meteredLux();
  if (!lumens || !metered || !to) return null;
  const half = (keys.beam_angle_deg || 40) / 2 * Math.PI / 180;
  const spread = { panel: Math.PI, bare: 4 * Math.PI }[keys.form] ?? 1.064 * Math.PI * half * half;
  const distance = Math.hypot(...from.map((x, i) => x - to[i]));
  const isAlone = !state.set.tables.some((table) => table.kind === "fixture");
  const wanted = metered * (isAlone ? 1 : 0.5) * distance * distance * spread / lumens;
  const least = keys.source === "led" ? 0.01 : 0.33;
  return wanted >= 1 ? null : Math.max(least, Number(wanted.toPrecision(2)));
}

// In a side wall, between the camera and what it looks at: the wall that has fewer lamps before it.
function windowPlace(drawing) {
  const box = drawing?.room.box;
  if (!box) return { wall: "wall_left", centre_m: [0, 1.5] };
  const camera = drawing.things.find((thing) => thing.kind === "camera");
  const lamps = drawing.things.filter((thing) => thing.kind === "fixture");
  const middle = (box[0][0] + box[1][0]) / 2;
  const lean = lamps.reduce((sum, lamp) => sum + Math.sign(lamp.at[0] - middle), 0);
  const along = camera?.aim ? 0.35 * camera.at[2] + 0.65 * camera.aim[2] : (box[0][2] + box[1][2]) / 2;
  const held = Math.min(box[1][2] - 0.7, Math.max(box[0][2] + 0.7, along));
  const height = Math.max(0.7, Math.min(1.5, box[1][1] - box[0][1] - 0.7));
  return { wall: lean > 0 ? "wall_left" : "wall_right", centre_m: [tidy(held), tidy(height)] };
}

// The seat of a figure whose feet are at `feet` and whose trunk is `way` from them.
function seatFor(feet, way, height) {
  const size = Math.hypot(...way) || 1;
  const [x, z] = way.map((w, i) => feet[i === 0 ? 0 : 2] + w / size * kFeetBeforeSeat * height);
  return { position: [x, feet[1], z], height_m: tidy(kSeatHeight * height) };
}

// Under the chosen seated figure, or the last one. Null without one.
function stoolPlace() {
  const seated = (table) => table?.kind === "stand_in" && table.keys.pose === "seated";
  const table = seated(state.selected) ? state.selected : state.set.tables.filter(seated).pop();
  const thing = table && state.drawing?.things.find((one) => desk.tableOfThing(one) === table);
  if (!thing) return null;
  const points = thing.above.flat();
  const middle = [0, 1].map((i) => points.reduce((sum, p) => sum + p[i], 0) / points.length);
  const height = typeof table.keys.height_m === "number" ? table.keys.height_m : 1.7;
  return seatFor(thing.at, [middle[0] - thing.at[0], middle[1] - thing.at[2]], height);
}

function onTable(top, isPane) {
  const position = placeOnTop(top);
  const lamp = isPane && lampToServe(state.drawing);
  return lamp ? { position, turn_deg: facingTurn(position, lamp.at) } : { position };
}

function placeKeys(kind, plain, kitName) {
  if (kind === "window") return windowPlace(state.drawing);
  const stool = plain?.[3] === "stool" ? stoolPlace() : null;
  if (stool) return stool;
  if (kNoPlace.includes(kind)) return {};
  const isPane = state.kit?.entries.some((entry) => entry.kind === "glass" && entry.name === kitName && entry.keys.form === "pane");
  const top = kind === "glass" ? tableForGlass(state.drawing, isPane) : null;
  if (top) return onTable(top, isPane);
  const place = placeFor(kind, state.drawing, kitName);
  const keys = { position: place.position };
  if (kind === "glass" && isPane && place.turn) keys.turn_deg = place.turn;
  if (kAims.includes(kind)) keys.aim = (kind === "fixture" && faceToLight()) || place.aim;
  const dimmer = kind === "fixture" ? easyDimmer(kitName, place.position, place.aim) : null;
  if (dimmer !== null) keys.dimmer = dimmer;
  if (kind === "meter") keys.facing = place.facing;
  return keys;
}
