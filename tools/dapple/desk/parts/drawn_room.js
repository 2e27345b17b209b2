// The parts of a drawing of the room: its scale, walls, beams, what the lens sees, and labels.

const kCrowded = 8; // more beams hide the chosen one
const kGripPx = 14;
const kSvg = "http://www.w3.org/2000/svg";
function svg(name, attributes = {}, text = "") {
  const node = document.createElementNS(kSvg, name);
  for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, value);
  if (text) node.textContent = text;
  return node;
}

// Metres to pixels. `across` and `up` pick two of x, y, z; the plan shows z downwards, the side y up.
function scaleOf(view, drawing, isSide) {
  const across = isSide && drawing.side_shows_z ? 2 : 0;
  const down = isSide ? 1 : 2;
  const sign = isSide ? -1 : 1;
  const points = [];
  if (drawing.room.box) points.push(...drawing.room.box);
  for (const thing of drawing.things) points.push(thing.at);
  let low = [Infinity, Infinity], high = [-Infinity, -Infinity];
  for (const p of points) {
    const flat = [p[across], sign * p[down]];
    for (const i of [0, 1]) {
      low[i] = Math.min(low[i], flat[i]);
      high[i] = Math.max(high[i], flat[i]);
    }
  }
  const width = view.clientWidth || 300, height = view.clientHeight || 200;
  const margins = [26, 12];
  const perMetre = Math.min(...[width, height].map((size, i) => (size - 2 * margins[i]) / Math.max(0.5, high[i] - low[i])));
  const middle = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2];
  return {
    across, down, perMetre, width, height,
    flat: ([a, b]) => [width / 2 + (a - middle[0]) * perMetre, height / 2 + (sign * b - middle[1]) * perMetre],
    at(p) { return this.flat([p[across], p[down]]); },
    place: ([px, py]) => [middle[0] + (px - width / 2) / perMetre, sign * (middle[1] + (py - height / 2) / perMetre)],
    // Metres along the two axes for a step in pixels.
    metres: ([dx, dy]) => [dx / perMetre, sign * dy / perMetre],
  };
}

const pathOf = (points) => `M${points.map((p) => p.map((x) => x.toFixed(1)).join(" ")).join("L")}`;

function drawRoom(place, scale, room, isSide) {
  if (room.box) {
    const [a, b] = room.box.map((p) => scale.at(p));
    place.append(svg("path", { class: "wall", d: pathOf([a, [b[0], a[1]], b, [a[0], b[1]]]) + "Z" }));
  }
  const cuts = isSide ? room.cut_side : [...room.cut_above, ...room.cut_high];
  let lines = "";
  for (let i = 0; i + 1 < cuts.length; i += 2) lines += pathOf([scale.flat(cuts[i]), scale.flat(cuts[i + 1])]);
  if (lines) place.append(svg("path", { class: "cut", d: lines }));
}

// A cone of half-angle `half` from `from` along the axis, flattened.
function coneOf(scale, thing, half, length) {
  const axis = thing.beam.axis;
  const flat = [axis[scale.across], axis[scale.down]];
  const spread = Math.tan(Math.min(half, 1.4)) * length;
  const size = Math.hypot(...flat) || 1;
  const side = [-flat[1] / size, flat[0] / size];
  const from = [thing.at[scale.across], thing.at[scale.down]];
  const end = (sign) => from.map((x, i) => x + flat[i] * length + sign * side[i] * spread);
  return pathOf([from, end(1), end(-1)].map((p) => scale.flat(p))) + "Z";
}

// Of the chosen thing also the field; with many fixtures all fields together hide the room.
function drawBeam(place, scale, thing, isChosen) {
  if (!thing.beam) return;
  const { beam_angle: beam, field_angle: field, length } = thing.beam;
  if (field > 0 && isChosen) place.append(svg("path", { class: "field", d: coneOf(scale, thing, field / 2, length) }));
  if (beam > 0) place.append(svg("path", { class: isChosen ? "beam chosen" : "beam", d: coneOf(scale, thing, beam / 2, length) }));
}

// The edges of what the lens sees, as far as the thing that it looks at and a little beyond.
function drawLens(place, scale, camera, lens, isSide) {
  if (!camera?.aim) return;
  const from = [camera.at[scale.across], camera.at[scale.down]];
  const to = [camera.aim[scale.across], camera.aim[scale.down]];
  const way = to.map((x, i) => (x - from[i]) * 1.4);
  const slope = Math.tan(lens[isSide ? 1 : 0]);
  const end = (sign) => [from[0] + way[0] - sign * way[1] * slope, from[1] + way[1] + sign * way[0] * slope];
  place.append(svg("path", { class: "seen", d: pathOf([end(1), from, end(-1)].map((p) => scale.flat(p))) }));
}

// Where the cross of an aim is drawn: at the aim, `to`, or before it where another thing stands, which
// the pointer could not take else. All in pixels.
function crossPlace(from, to, others) {
  const apart = (p) => Math.hypot(p[0] - to[0], p[1] - to[1]);
  if (!others.some((p) => apart(p) < 1.5 * kGripPx)) return to;
  const back = Math.min(0.5, 2 * kGripPx / Math.max(1, apart(from)));
  return to.map((x, i) => x + (from[i] - x) * back);
}

// Labels beside their things where there is room: to the right or left, above or below. The chosen
// thing comes first and always has its label; others may be left out.
function placeLabels(view, labels, taken) {
  const hits = (box) => taken.some((b) => box[0] < b[2] && b[0] < box[2] && box[1] < b[3] && b[1] < box[3]);
  labels.sort((a, b) => b.isChosen - a.isChosen);
  for (const { text, at, isChosen } of labels) {
    const width = text.length * 6.4, height = 12;
    const boxes = [[7, -16], [7, 4], [-7 - width, -16], [-7 - width, 4]].map(([dx, dy]) => [at[0] + dx, at[1] + dy, at[0] + dx + width, at[1] + dy + height]);
    const inside = (box) => box[0] >= 0 && box[2] <= view.clientWidth && box[1] >= 0 && box[3] <= view.clientHeight;
    const box = boxes.find((b) => inside(b) && !hits(b)) || (isChosen ? boxes[0] : null);
    if (!box) continue;
    taken.push(box);
    view.append(svg("text", { x: box[0], y: box[3] - 2, "font-size": 11, class: isChosen ? "label chosen" : "label" }, text));
  }
}
