// Windows and doors in the drawings: chosen by a click, dragged along their wall, and up and down.

const kEdgePx = 7; // half of what takes the pointer (.edge-grip)

function makeOpenings(view, desk) {
  let drag = null;
  const tableOf = (opening) => desk.tableOf(opening.window ? "window" : "door", opening.name);
  // Along x or z; null for an opening that is a surface of a model.
  const axisOf = (table) => ({ wall_left: 2, wall_right: 2, wall_back: 0, wall_front: 0 }[table?.keys.wall] ?? null);

  function begin(event, opening) {
    const table = tableOf(opening);
    if (!table) return;
    desk.select(table.kind, table.name);
    const axis = axisOf(table);
    if (axis === null || !Array.isArray(table.keys.centre_m)) return;
    view.setPointerCapture(event.pointerId);
    const corners = opening.corners.map((p) => [...p]);
    drag = { name: table.name, kind: table.kind, opening, corners, axis, from: [event.clientX, event.clientY], start: [...table.keys.centre_m], gesture: desk.changer.newGesture(), moved: false };
  }

  function follow(event, scale, isEnd) {
    if (!drag) return;
    const pixels = [event.clientX - drag.from[0], event.clientY - drag.from[1]];
    drag.moved = drag.moved || Math.hypot(...pixels) >= 3;
    const { opening, corners, axis, start, gesture, moved } = drag;
    const table = desk.tableOf(drag.kind, drag.name);
    if (isEnd) drag = null;
    if (!moved || !table) return;
    const step = scale.metres(pixels);
    const by = [0, 0, 0];
    by[scale.across] = step[0];
    by[scale.down] = step[1];
    const along = by[axis], up = by[1];
    opening.corners = corners.map((p) => p.map((x, i) => x + (i === axis ? along : i === 1 ? up : 0)));
    desk.changer.change([{ address: `${table.address}.centre_m`, value: tomlPoint([start[0] + along, start[1] + up]) }], gesture, !isEnd);
    desk.redraw();
  }

  return {
    follow, begin, tableOf,
    // The window or door whose outline is at a place of the drawing; the chosen one first.
    at(point, scale, room) {
      const near = room.openings.filter(({ corners }) => {
        const flat = corners.map((p) => scale.at(p));
        return flat.some((p, i) => fromLine(point, p, flat[(i + 1) % flat.length]) <= kEdgePx);
      });
      return near.find((opening) => tableOf(opening) === state.selected) ?? near[0];
    },
    isDragging: () => drag !== null,
    lose: () => (drag = null),
    draw(scale, room) {
      for (const opening of room.openings) {
        const isChosen = state.selected && state.selected === tableOf(opening);
        const outline = pathOf(opening.corners.map((p) => scale.at(p))) + "Z";
        const group = svg("g", { class: `opening${isChosen ? " chosen" : ""}`, "data-name": opening.name });
        group.append(svg("path", { class: opening.window ? "window" : "door", d: outline }), svg("path", { class: "edge-grip", d: outline }), svg("title", {}, opening.name));
        view.append(group);
      }
    },
  };
}
