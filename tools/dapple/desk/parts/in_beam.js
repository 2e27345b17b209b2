// Where a new glass, cloth or flag stands in a fixture's beam: out of the picture if there is room, and
// in no other fixture's beam. A flag cuts the edge of the beam, on the side of the camera.

const kApart = 0.35;       // m, between things that are put into one beam
const kFlagCuts = 0.5;     // of the beam's radius, from its middle to where a flag begins
const kClearOfAim = 0.22;  // m, round what the fixture looks at, that a flag leaves lit

// The chosen fixture, or the first.
function lampToServe(drawing) {
  const lamps = drawing?.things.filter((thing) => thing.kind === "fixture" && thing.aim) || [];
  return lamps.find((thing) => desk.isSelected(thing)) || lamps[0];
}

const halfBeam = ({ beam }) => Math.min(1.2, (beam?.beam_angle || 1) / 2);
// How far a point is outside of the middle of a beam, and how far along: metres.
function inBeamOf(lamp, point) {
  const axis = unit(minus(lamp.aim, lamp.at)), from = minus(point, lamp.at);
  const along = dot(from, axis);
  return { along, across: Math.hypot(...minus(from, times(axis, along))) };
}
// Infinite behind the fixture.
function fromBeam(lamp, point) {
  const { along, across } = inBeamOf(lamp, point);
  return along > 0 ? across : Infinity;
}
// Whether a thing that reaches `reach` metres round `point` stops light of the fixture on its way.
function isCut(lamp, point, reach) {
  const { along, across } = inBeamOf(lamp, point);
  return along > 0 && along < Math.hypot(...minus(lamp.aim, lamp.at)) && across < along * Math.tan(halfBeam(lamp)) + reach;
}

function widthOfKit(kind, kitName) {
  const size = state.kit?.entries.find((entry) => entry.kind === kind && entry.name === kitName)?.keys.size_m;
  return Array.isArray(size) ? size[0] : 0.45;
}

// From the middle of the beam to the middle of a flag that is `width` wide, `along` metres before the
// fixture: level, towards the camera.
function flagOffset(lamp, along, width, drawing) {
  const way = minus(lamp.aim, lamp.at), axis = unit(way);
  const radius = along * Math.tan(halfBeam(lamp));
  const clear = Math.min(0.85 * radius, kClearOfAim * along / Math.hypot(...way));
  const level = unit(Math.abs(axis[1]) > kUpright ? [1, 0, 0] : cross(axis, [0, 1, 0]));
  const camera = drawing.things.find((thing) => thing.kind === "camera")?.at ?? lamp.at;
  const sign = dot(level, minus(camera, lamp.at)) < 0 ? -1 : 1;
  return times(level, sign * (Math.max(kFlagCuts * radius, clear) + width / 2));
}

// { lamp, point, cut: the name of another fixture whose beam it stands in, else "" }. Null without a
// fixture.
function placeInBeam(drawing, kind, reach, width) {
  const lamp = lampToServe(drawing);
  if (!lamp) return null;
  const way = minus(lamp.aim, lamp.at), size = Math.hypot(...way) || 1;
  const pointAt = (along, side) => plus(plus(lamp.at, times(way, along / size)), kind === "flag" ? times(flagOffset(lamp, along, width, drawing), side) : [0, 0, 0]);
  const others = drawing.things.filter((thing) => kInBeam.includes(thing.kind));
  const isFree = (p) => !others.some(({ at }) => Math.hypot(at[0] - p[0], at[2] - p[2]) < kApart && Math.abs(at[1] - p[1]) < 2 * kApart);
  const lamps = drawing.things.filter((thing) => thing.kind === "fixture" && thing.aim && thing !== lamp);
  const cutAt = (p) => lamps.find((other) => isCut(other, p, reach))?.name ?? "";
  const first = Math.min(0.45, 0.4 * size);
  const steps = [...Array(40).keys()].map((i) => first + 0.05 * i).filter((along) => along < 0.9 * size);
  // What is worse about a place counts more than what is less bad; the nearest of the best is taken.
  const badness = (p) => (isFree(p) ? 0 : 4) + (cutAt(p) ? 2 : 0) + (isInPicture(p, reach, drawing) ? 1 : 0);
  // A flag that finds no good place on the side of the camera comes to the other side.
  const points = (kind === "flag" ? [1, -1] : [1]).flatMap((side) => (steps.length > 0 ? steps : [first]).map((along) => pointAt(along, side)));
  const point = points.reduce((best, p) => (badness(p) < badness(best) ? p : best));
  return { lamp, point, cut: cutAt(point) };
}
