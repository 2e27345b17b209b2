// The room from above and from the side, drawn to scale, with things that can be dragged.

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

function makeView(view, isSide, desk) {
  let drawing = null;
  let scale = null;
  let drag = null;
  const openings = makeOpenings(view, desk);

  const tableOf = (thing) => desk.tableOfThing(thing);
  const pointOf = (thing, key) => {
    const written = tableOf(thing)?.keys[key];
    const isPoint = Array.isArray(written) && written.length === 3 && written.every((x) => typeof x === "number");
    return isPoint ? written : key === "position" ? thing.at : thing.aim;
  };
  const canMove = (thing) => Boolean(tableOf(thing)?.address) && "position" in tableOf(thing).keys;
  const canAim = (thing) => Boolean(tableOf(thing)?.address) && "aim" in tableOf(thing).keys && thing.aim;

  function drawThing(thing) {
    const isChosen = desk.isSelected(thing);
    const group = svg("g", { class: `thing${isChosen ? " chosen" : ""}${canMove(thing) ? "" : " fixed"}`, "data-name": thing.name, "data-kind": thing.kind });
    const at = scale.at(thing.at);
    const polygons = isSide ? thing.side : thing.above;
    for (const polygon of polygons) group.append(svg("path", { class: "outline", d: pathOf(polygon.map((p) => scale.flat(p))) + "Z" }));
    if (polygons.length === 0) group.append(svg("circle", { class: "outline", cx: at[0], cy: at[1], r: 5 }));
    group.append(svg("circle", { class: "grip", cx: at[0], cy: at[1], r: kGripPx }));
    const kind = thing.kind === "column" && thing.name ? "" : ` ${kindWord(thing.kind)}`;
    group.append(svg("title", {}, `${thing.name}${kind}${thing.how ? `: ${thing.how}` : ""}`));
    group.addEventListener("pointerdown", (event) => begin(event, thing, "position"));
    view.append(group);
    if (!isChosen || !canAim(thing)) return;
    const [x, y] = crossPlace(at, scale.at(thing.aim), drawing.things.filter((other) => other !== thing).map((other) => scale.at(other.at)));
    view.append(svg("path", { class: "axis", d: pathOf([at, scale.at(thing.aim)]) }));
    const cross = svg("g", { class: "thing", "data-aim-of": thing.name });
    cross.append(svg("path", { class: "aim", d: `M${x - 6} ${y}h12M${x} ${y - 6}v12` }), svg("circle", { class: "grip", cx: x, cy: y, r: kGripPx }));
    cross.addEventListener("pointerdown", (event) => begin(event, thing, "aim"));
    view.append(cross);
  }

  function draw() {
    if (!drawing) return;
    scale = scaleOf(view, drawing, isSide);
    view.replaceChildren();
    drawRoom(view, scale, drawing.room, isSide);
    openings.draw(scale, drawing.room);
    for (const cable of drawing.cables) view.append(svg("path", { class: "cable", d: pathOf(cable.points.map((p) => scale.at(p))) }));
    const selected = drawing.things.find((thing) => desk.isSelected(thing));
    view.classList.toggle("crowded", Boolean(selected) && drawing.things.filter((thing) => thing.beam).length > kCrowded);
    for (const thing of drawing.things) drawBeam(view, scale, thing, thing === selected);
    drawLens(view, scale, drawing.things.find((thing) => thing.kind === "camera"), drawing.lens, isSide);
    // The chosen thing on top, but a table stays below what stands on it.
    const isOnTop = (thing) => thing === selected && thing.kind !== "column";
    for (const thing of drawing.things) if (!isOnTop(thing)) drawThing(thing);
    const taken = selected ? drawTape(view, scale, selected, drawing.room) : [];
    if (selected && isOnTop(selected)) drawThing(selected);
    const labelled = drawing.things.filter((thing) => thing.name || thing.kind !== "column");
    placeLabels(view, labelled.map((thing) => ({ text: thing.name || kindWord(thing.kind), at: scale.at(thing.at), isChosen: thing === selected })), taken);
    desk.bounds.draw(view, scale);
  }

  function begin(event, thing, key) {
    if (thing.kind === "column" && desk.bounds.isDrawn()) return; // the hand draws a box on it
    event.preventDefault();
    event.stopPropagation();
    view.focus();
    desk.selectThing(thing);
    const fresh = drawing.things.find((other) => tableOf(other) === tableOf(thing)) || thing;
    if (!(key === "aim" ? canAim(fresh) : canMove(fresh))) return;
    view.setPointerCapture(event.pointerId);
    const riders = key === "position" ? ridersOf(tableOf(fresh), desk.tables()) : [];
    drag = { thing: fresh, riders, key, from: [event.clientX, event.clientY], start: [...pointOf(fresh, key)], shown: [...(key === "aim" ? fresh.aim : fresh.at)], reach: reachOf(fresh, scale, isSide), gesture: desk.changer.newGesture(), moved: false };
  }

  function moved(start, step) {
    const point = [...start];
    point[scale.across] += step[0];
    point[scale.down] += step[1];
    return point;
  }

  function follow(event, isEnd) {
    if (!drag) return;
    let step = scale.metres([event.clientX - drag.from[0], event.clientY - drag.from[1]]);
    if (!drag.moved && Math.hypot(event.clientX - drag.from[0], event.clientY - drag.from[1]) < 3) {
      if (isEnd) drag = null;
      return;
    }
    drag.moved = true;
    const { thing, key } = drag;
    if (key === "position" && !event.altKey) {
      const at = [drag.shown[scale.across] + step[0], drag.shown[scale.down] + step[1]];
      const tops = topsOf(desk.tables()).filter((top) => ![tableOf(thing), ...drag.riders].some(({ address }) => address === top.table.address) && isOver(top, moved(drag.shown, step)));
      step = snapStep(at, drag.reach, drawing.room, scale, isSide ? tops : []).map((x, i) => x + step[i]);
    }
    const shift = moved(drag.shown, step).map((x, i) => x - (key === "aim" ? thing.aim : thing.at)[i]);
    shiftWithRiders(thing, drag.riders, key, shift);
    const riding = ridingChanges(drag.riders, moved([0, 0, 0], step));
    desk.changer.change([{ address: `${tableOf(thing).address}.${key}`, value: tomlPoint(moved(drag.start, step)) }, ...riding], drag.gesture, !isEnd);
    desk.redraw();
    if (isEnd) drag = null;
  }

  // Until the program has drawn the set anew, the drawing follows the hand.
  function shiftDrawn(thing, key, shift) {
    const add = (p, axes) => axes.forEach((axis, i) => (p[i] += shift[axis]));
    if (key === "aim") return add(thing.aim, [0, 1, 2]);
    add(thing.at, [0, 1, 2]);
    for (const polygon of thing.above) for (const p of polygon) add(p, [0, 2]);
    for (const polygon of thing.side) for (const p of polygon) add(p, [drawing.side_shows_z ? 2 : 0, 1]);
  }

  function shiftWithRiders(thing, riders, key, shift) {
    shiftDrawn(thing, key, shift);
    const isRider = (other) => riders.some(({ address }) => address === tableOf(other)?.address);
    for (const rider of drawing.things.filter((other) => other !== thing && isRider(other))) shiftDrawn(rider, "position", shift);
  }

  view.addEventListener("pointerdown", (event) => scale && desk.bounds.press(event, view, scale));
  view.addEventListener("pointermove", (event) => {
    follow(event, false);
    openings.follow(event, scale, false);
    if (scale) desk.bounds.follow(event, view, scale);
  });
  view.addEventListener("pointerup", (event) => {
    follow(event, true);
    openings.follow(event, scale, true);
    desk.bounds.end();
  });
  view.addEventListener("pointercancel", () => {
    drag = null;
    openings.lose();
    desk.bounds.end();
  });
  view.addEventListener("keydown", (event) => {
    const step = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
    const thing = drawing?.things.find((other) => desk.isSelected(other));
    if (!step || !thing || !canMove(thing)) return;
    event.preventDefault();
    const size = event.shiftKey ? 0.01 : 0.05;
    const metres = [step[0] * size, (isSide ? -1 : 1) * step[1] * size];
    const point = moved(pointOf(thing, "position"), metres), shift = moved([0, 0, 0], metres);
    const riders = ridersOf(tableOf(thing), desk.tables());
    shiftWithRiders(thing, riders, "position", shift);
    desk.changer.change([{ address: `${tableOf(thing).address}.position`, value: tomlPoint(point) }, ...ridingChanges(riders, shift)]);
    desk.redraw();
  });
  new ResizeObserver(draw).observe(view);
  return {
    draw,
    isDragging: () => drag !== null || openings.isDragging(),
    show(newDrawing) {
      drawing = newDrawing;
      if (isSide) element("side-words").textContent = drawing.side_words;
      draw();
    },
  };
}
