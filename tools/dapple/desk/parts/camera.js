// The camera moved by dragging in the frame, as one would move it in the room: round what it looks at,
// panned and tilted on the spot, or closer and back. y is up.

const kRoundTurn = 1.6;  // rad, for a drag over the whole width
const kCloser = 1.06;    // for one step
const kSteepest = 1.45;  // rad above or below, when walking round

// From a to b as distance, angle round the vertical and height angle.
function polarOf(a, b) {
  const way = b.map((x, i) => x - a[i]);
  const distance = Math.hypot(...way) || 0.01;
  return { distance, round: Math.atan2(way[0], way[2]), height: Math.asin(Math.max(-1, Math.min(1, way[1] / distance))) };
}
function pointFrom(a, { distance, round, height }) {
  const flat = Math.cos(height) * distance;
  return [a[0] + flat * Math.sin(round), a[1] + Math.sin(height) * distance, a[2] + flat * Math.cos(round)];
}
const held = (height) => Math.max(-kSteepest, Math.min(kSteepest, height));

function makeCameraModes(desk) {
  function cameraNow() {
    const camera = desk.drawing()?.things.find((thing) => thing.kind === "camera");
    return camera?.aim && desk.tableOf("camera", "")?.address ? { at: [...camera.at], aim: [...camera.aim], lens: desk.drawing().lens } : null;
  }
  // Tells the program, and moves what is drawn until it has drawn the set anew.
  function move(start, at, aim, gesture, isMoving) {
    const changes = [];
    if (at) changes.push({ address: "camera.position", value: tomlPoint(at) });
    if (aim) changes.push({ address: "camera.aim", value: tomlPoint(aim) });
    const drawn = desk.drawing().things.find((thing) => thing.kind === "camera");
    if (at) drawn.at = at;
    if (aim) drawn.aim = aim;
    desk.redraw();
    desk.changer.change(changes, gesture, isMoving);
  }
  const walkRound = (start, [dx, dy]) => {
    const from = polarOf(start.aim, start.at);
    return pointFrom(start.aim, { ...from, round: from.round - dx * kRoundTurn, height: held(from.height + dy * kRoundTurn * 0.66) });
  };
  // What is under the pointer stays under it.
  const panned = (start, [dx, dy]) => {
    const to = polarOf(start.at, start.aim);
    return pointFrom(start.at, { ...to, round: to.round + dx * 2 * start.lens[0], height: held(to.height + dy * 2 * start.lens[1]) });
  };
  const closer = (direction) => {
    const start = cameraNow();
    if (!start) return;
    const to = polarOf(start.aim, start.at);
    move(start, pointFrom(start.aim, { ...to, distance: Math.max(0.3, to.distance * kCloser ** direction) }), null, "closer", false);
  };

  function modeOf(words, hint, turn) {
    const go = (start, step, gesture, isMoving) => turn(start, step, (at, aim) => move(start, at, aim, gesture, isMoving));
    return {
      words, hint,
      show: (isOn) => isOn && desk.select("camera", ""),
      press(place) {
        const start = cameraNow();
        return start && { start, from: place, gesture: desk.changer.newGesture(), isMoved: false };
      },
      drag(drag, place) {
        const step = place.map((x, i) => x - drag.from[i]);
        drag.isMoved = drag.isMoved || Math.hypot(...step) > 0.004;
        if (drag.isMoved) go(drag.start, step, drag.gesture, true);
      },
      release(drag, place) {
        if (drag.isMoved) go(drag.start, place.map((x, i) => x - drag.from[i]), drag.gesture, false);
      },
      wheel: closer,
      step(key) {
        const start = cameraNow();
        if (key === "+" || key === "-") closer(key === "+" ? -1 : 1);
        else if (start && Array.isArray(key)) go(start, key.map((x) => x * 0.02), desk.changer.newGesture(), false);
      },
    };
  }
  return {
    round: modeOf("Walk round", "Drag to walk round what the camera looks at, or to raise and lower the camera. The wheel, + and − step closer and back.",
      (start, step, put) => put(walkRound(start, step), null)),
    pan: modeOf("Pan and tilt", "Drag to pan and tilt the camera on the spot. The wheel, + and − step closer and back.",
      (start, [dx, dy], put) => put(null, panned(start, [dx, dy]))),
    closer,
  };
}
