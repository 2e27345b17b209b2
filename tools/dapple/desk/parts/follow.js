// The drawing while the set has a mistake: the program draws none then, so things that have a place in
// the set's text follow it here, and new ones are points.

const isPlace = (value) => Array.isArray(value) && value.length === 3 && value.every((x) => typeof x === "number");

function followed(drawing, tables) {
  const across = drawing.side_shows_z ? 2 : 0;
  const drawn = new Map(drawing.things.map((thing) => [desk.tableOfThing(thing), thing]));
  const things = [];
  for (const table of tables) {
    const thing = drawn.get(table);
    const place = isPlace(table.keys.position) ? table.keys.position : null;
    if (!thing) {
      const isNew = place && table.kind in kKinds;
      if (isNew) things.push({ kind: table.kind, name: table.name, label: table.name, how: "not drawn before", at: [...place], aim: isPlace(table.keys.aim) ? table.keys.aim : null, above: [], side: [], beam: null });
      continue;
    }
    const step = place ? place.map((x, i) => x - thing.at[i]) : [0, 0, 0];
    const moved = (polygons, a, b) => polygons.map((polygon) => polygon.map((p) => [p[0] + step[a], p[1] + step[b]]));
    things.push({ ...thing, at: thing.at.map((x, i) => x + step[i]), aim: isPlace(table.keys.aim) ? [...table.keys.aim] : thing.aim, above: moved(thing.above, 0, 2), side: moved(thing.side, across, 1) });
  }
  return { ...drawing, things };
}
