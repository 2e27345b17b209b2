// While a thing is dragged: it stands on the floor or a table and against a wall where it comes near,
// and tapes show how far it is from them.

const kSnapPx = 8;

// How far a thing reaches from its position along the two axes of a view: [[low, high], [low, high]].
// Null for what has no outline, such as a light meter.
function reachOf(thing, scale, isSide) {
  const points = (isSide ? thing.side : thing.above).flat();
  if (points.length === 0) return null;
  const at = [thing.at[scale.across], thing.at[scale.down]];
  return at.map((x, i) => {
    const all = points.map((p) => p[i] - x);
    return [Math.min(...all), Math.max(...all)];
  });
}

// The step, in metres, that takes `at` (of a view) to the floor, the ceiling, a wall or one of the
// tables' tops below it; each axis by itself, 0 where nothing is near.
function snapStep(at, reach, room, scale, tops) {
  if (!reach) return [0, 0];
  const axes = [scale.across, scale.down];
  return at.map((x, i) => {
    const walls = room.box ? [room.box[0][axes[i]] - (x + reach[i][0]), room.box[1][axes[i]] - (x + reach[i][1])] : [];
    const steps = [...walls, ...(axes[i] === 1 ? tops.map((top) => top.at[1] - (x + reach[i][0])) : [])];
    const nearest = steps.reduce((best, step) => (Math.abs(step) < Math.abs(best) ? step : best), Infinity);
    return Math.abs(nearest) * scale.perMetre <= kSnapPx ? nearest : 0;
  });
}

// The distances of a thing from the walls on both sides, and from the floor and the ceiling. Returns
// the boxes of its texts.
function drawTape(place, scale, thing, room) {
  const texts = [];
  if (!room.box) return texts;
  const at = [thing.at[scale.across], thing.at[scale.down]];
  for (const i of [0, 1]) {
    for (const end of [0, 1]) {
      const wall = [...at];
      wall[i] = room.box[end][i === 0 ? scale.across : scale.down];
      const length = Math.abs(at[i] - wall[i]);
      const [a, b] = [scale.flat(at), scale.flat(wall)];
      place.append(svg("path", { class: "tape", d: pathOf([a, b]) }));
      if (length * scale.perMetre < 34) continue;
      const middle = [(a[0] + 2 * b[0]) / 3, (a[1] + 2 * b[1]) / 3];
      texts.push([middle[0], middle[1] - 15, middle[0] + 45, middle[1]]);
      place.append(svg("text", { class: "tape-text", x: middle[0] + 3, y: middle[1] - 3, "font-size": 11 }, `${length.toFixed(2)} m`));
    }
  }
  return texts;
}
