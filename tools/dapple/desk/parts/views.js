// The room from above and from the side, drawn to scale, with things that can be dragged.

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
    view.append(group);
    if (!isChosen || !canAim(thing)) return;
    const [x, y] = crossOf(thing);
    view.append(svg("path", { class: "axis", d: pathOf([at, scale.at(thing.aim)]) }));
    const cross = svg("g", { class: "thing", "data-aim-of": thing.name });
    cross.append(svg("path", { class: "aim", d: `M${x - 6} ${y}h12M${x} ${y - 6}v12` }), svg("circle", { class: "grip", cx: x, cy: y, r: kGripPx }));
    view.append(cross);
  }
  const crossOf = (thing) => crossPlace(scale.at(thing.at), scale.at(thing.aim), drawing.things.filter((other) => other !== thing).map((other) => scale.at(other.at)));

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

  const placeOf = (event) => {
    const edge = view.getBoundingClientRect();
    return [event.clientX - edge.left, event.clientY - edge.top];
  };
  // What a press here takes: { thing, key, click: what a click without a drag chooses }, or { opening }.
  // Null: nothing.
  function taken(point) {
    const chosen = drawing.things.find((thing) => desk.isSelected(thing));
    // The hand draws a box on tables while a place is looked for.
    const things = drawing.things.filter((thing) => thing.kind !== "column" || !desk.bounds.isDrawn());
    const others = things.filter((thing) => thing !== chosen);
    const click = thingAt(point, things, scale, isSide);
    const opening = openings.at(point, scale, drawing.room);
    if (opening && state.selected === openings.tableOf(opening)) return { opening };
    if (chosen && canAim(chosen) && isOnCross(point, crossOf(chosen), others, scale, isSide)) return { thing: chosen, key: "aim", click: chosen };
    if (things.includes(chosen) && canMove(chosen) && isOnChosen(point, chosen, others, scale, isSide)) return { thing: chosen, key: "position", click: click ?? chosen };
    if (opening && !isOnMark(point, things, scale, isSide)) return { opening };
    return click && { thing: click, key: "position", click };
  }

  function begin(event) {
    const hit = drawing && scale && event.button === 0 ? taken(placeOf(event)) : null;
    if (!hit) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    view.focus();
    if (hit.opening) return openings.begin(event, hit.opening);
    const { thing, key, click } = hit;
    desk.selectThing(thing);
    const fresh = drawing.things.find((other) => tableOf(other) === tableOf(thing)) || thing;
    if (!(key === "aim" ? canAim(fresh) : canMove(fresh))) return;
    view.setPointerCapture(event.pointerId);
    drag = { thing: fresh, carry: carriedWith(tableOf(fresh), key, desk.tables(), drawing), click: tableOf(click), key, from: [event.clientX, event.clientY], start: [...pointOf(fresh, key)], shown: [...(key === "aim" ? fresh.aim : fresh.at)], reach: reachOf(fresh, scale, isSide), gesture: desk.changer.newGesture(), moved: false };
  }

  // The hand and the words say beforehand what a press takes.
  function hover(event) {
    if (!drawing || !scale || drag || event.pointerType === "touch") return;
    const hit = event.target.closest(".corner") ? null : taken(placeOf(event));
    const thing = hit?.thing;
    const kind = !thing || (thing.kind === "column" && thing.name) ? "" : ` ${kindWord(thing.kind)}`;
    const words = !thing ? hit?.opening?.name ?? "" : hit.key === "aim" ? `${thing.name}: what it looks at` : `${thing.name}${kind}${thing.how ? `: ${thing.how}` : ""}`;
    view.style.cursor = !thing ? (hit ? "grab" : "") : hit.key === "aim" || canMove(thing) ? "grab" : "not-allowed";
    if (view.querySelector(":scope > title")?.textContent !== words) {
      view.querySelector(":scope > title")?.remove();
      if (words) view.prepend(svg("title", {}, words));
    }
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
      const { click } = drag;
      if (isEnd) drag = null;
      if (isEnd && click) desk.selectTable(click);
      return;
    }
    drag.moved = true;
    const { thing, key, carry } = drag;
    if (key === "position" && !event.altKey) {
      const at = [drag.shown[scale.across] + step[0], drag.shown[scale.down] + step[1]];
      const tops = topsOf(desk.tables()).filter((top) => ![tableOf(thing), ...carry.riders].some(({ address }) => address === top.table.address) && isOver(top, moved(drag.shown, step)));
      step = snapStep(at, drag.reach, drawing.room, scale, isSide ? tops : []).map((x, i) => x + step[i]);
    }
    const hand = moved(drag.start, step);
    const settled = event.altKey ? { to: hand, on: "" } : settledFrom(carry, hand, desk.tables(), drawing);
    const carried = carryTo(carry, settled.to, event.altKey);
    shiftDrawn(thing, key, minus(plus(drag.shown, minus(settled.to, drag.start)), key === "aim" ? thing.aim : thing.at));
    shiftCarried(carry, carried.steps);
    desk.changer.change([{ address: `${tableOf(thing).address}.${key}`, value: tomlPoint(settled.to) }, ...carried.changes], drag.gesture, !isEnd);
    desk.redraw();
    if (isEnd && settled.on) tellStands([tableOf(thing)], settled.on);
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

  function shiftCarried(carry, steps) {
    for (const other of drawing.things) {
      const step = steps.get(tableOf(other)?.address);
      if (step) shiftDrawn(other, "position", minus(plus(carry.drawnAt.get(tableOf(other).address), step), other.at));
    }
  }

  view.addEventListener("pointerdown", begin);
  view.addEventListener("pointerdown", (event) => scale && desk.bounds.press(event, view, scale));
  view.addEventListener("pointermove", (event) => {
    hover(event);
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
    const start = pointOf(thing, "position"), carry = carriedWith(tableOf(thing), "position", desk.tables(), drawing);
    const settled = settledFrom(carry, moved(start, metres), desk.tables(), drawing);
    const carried = carryTo(carry, settled.to);
    shiftDrawn(thing, "position", minus(settled.to, start));
    shiftCarried(carry, carried.steps);
    desk.changer.change([{ address: `${tableOf(thing).address}.position`, value: tomlPoint(settled.to) }, ...carried.changes]);
    if (settled.on) tellStands([tableOf(thing)], settled.on);
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
