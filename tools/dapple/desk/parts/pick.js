// What the pointer takes in a drawing. Without a choice it is what is drawn nearest: of several drawn
// things under the pointer the smallest. A drag that begins on the chosen thing, or as near as a
// finger, moves the chosen thing whatever is drawn over it; a click there still chooses the other one.

const kMarkPx = 4;    // from a drawn outline to what counts as being on it
const kOverPx = 1.5; // likewise, over another thing
const kGrabPx = 14;   // round the middle of the chosen thing
const kSmallGrabPx = 8;
const kFingerPx = 22; // from an outline, where nothing else is drawn nearer: 44 px across
const kDotPx = 5;     // radius of a thing without an outline

function isInside([x, y], polygon) {
  let isIn = false;
  polygon.forEach(([ax, ay], i) => {
    const [bx, by] = polygon[(i + 1) % polygon.length];
    if (ay > y !== by > y && x < ax + (bx - ax) * (y - ay) / (by - ay)) isIn = !isIn;
  });
  return isIn;
}
function fromLine([x, y], [ax, ay], [bx, by]) {
  const [dx, dy] = [bx - ax, by - ay];
  const along = Math.max(0, Math.min(1, ((x - ax) * dx + (y - ay) * dy) / (dx * dx + dy * dy || 1)));
  return Math.hypot(x - ax - along * dx, y - ay - along * dy);
}
const fromPolygon = (point, polygon) => (isInside(point, polygon) ? 0 : Math.min(...polygon.map((corner, i) => fromLine(point, corner, polygon[(i + 1) % polygon.length]))));
function areaOf(polygon) {
  return Math.abs(polygon.reduce((sum, [ax, ay], i) => {
    const [bx, by] = polygon[(i + 1) % polygon.length];
    return sum + (ax * by - bx * ay) / 2;
  }, 0));
}

// { thing, at, away, area }: how far `point` is from what is drawn of a thing; all in pixels.
function markOf(thing, point, scale, isSide) {
  const polygons = (isSide ? thing.side : thing.above).map((polygon) => polygon.map((p) => scale.flat(p)));
  const at = scale.at(thing.at);
  if (polygons.length === 0) return { thing, at, away: Math.max(0, Math.hypot(point[0] - at[0], point[1] - at[1]) - kDotPx), area: Math.PI * kDotPx * kDotPx };
  return { thing, at, away: Math.min(...polygons.map((polygon) => fromPolygon(point, polygon))), area: polygons.reduce((sum, polygon) => sum + areaOf(polygon), 0) };
}

// Over another thing's outline a small thing is taken on its own mark only, and a tiny one just beside.
function slackOf({ thing, area }, marks) {
  const isOver = marks.some((other) => other.thing !== thing && other.away === 0 && other.area > area);
  return isOver ? Math.max(kOverPx, kMarkPx - Math.sqrt(area / Math.PI)) : kMarkPx;
}

// The thing that is drawn at `point`, else the nearest within a finger's reach; null without one.
function thingAt(point, things, scale, isSide) {
  const marks = things.map((thing) => markOf(thing, point, scale, isSide)).filter(({ away }) => away <= kFingerPx);
  const on = marks.filter((mark) => mark.away <= slackOf(mark, marks));
  const isBetter = on.length > 0 ? (a, b) => a.area < b.area : (a, b) => a.away < b.away;
  return (on.length > 0 ? on : marks).reduce((best, mark) => (best && !isBetter(mark, best) ? best : mark), null)?.thing ?? null;
}

// Whether a drag from `point` moves the chosen thing. Over another thing's outline its grab area is
// small, so that a table can be taken beside the bottle on it.
function isOnChosen(point, chosen, others, scale, isSide) {
  const { at, away } = markOf(chosen, point, scale, isSide);
  const isOver = others.some((other) => markOf(other, point, scale, isSide).away === 0);
  return away <= kMarkPx || Math.hypot(point[0] - at[0], point[1] - at[1]) <= (isOver ? kSmallGrabPx : kGrabPx);
}
const isOnMark = (point, things, scale, isSide) => things.some((thing) => markOf(thing, point, scale, isSide).away <= kMarkPx);

// Whether it takes the cross at `cross`: on its lines, or near it with nothing else drawn there.
function isOnCross(point, cross, things, scale, isSide) {
  const away = Math.hypot(point[0] - cross[0], point[1] - cross[1]);
  return away <= 1.5 * kMarkPx || (away <= kFingerPx && things.every((thing) => markOf(thing, point, scale, isSide).away > Math.min(away, kMarkPx)));
}
