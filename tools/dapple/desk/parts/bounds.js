// Where a thing may stand while a place is looked for: a box, drawn on the plan and on the side view.
// Its corners can be dragged, and a drag on the empty drawing begins another one.

const kLeastDrag = 4; // px

function makeBounds(onChange) {
  let box = null; // [low, high], each [x, y, z] in metres; null while no place is looked for
  let drag = null; // { view, fixed: the corner that stays, in metres of the view, from: px, moved }

  const placeOf = (event, view) => {
    const edge = view.getBoundingClientRect();
    return [event.clientX - edge.left, event.clientY - edge.top];
  };
  function begin(event, view, fixed) {
    event.preventDefault();
    event.stopPropagation();
    view.setPointerCapture(event.pointerId);
    drag = { view, fixed, from: placeOf(event, view), moved: false };
  }

  function draw(view, scale) {
    if (!box) return;
    const [across, down] = [scale.across, scale.down];
    const [a, b] = box.map((corner) => scale.at(corner));
    view.append(svg("rect", { class: "bounds", x: Math.min(a[0], b[0]), y: Math.min(a[1], b[1]), width: Math.abs(a[0] - b[0]), height: Math.abs(a[1] - b[1]) }));
    for (const [i, j] of [[0, 0], [0, 1], [1, 0], [1, 1]]) {
      const [x, y] = scale.flat([box[i][across], box[j][down]]);
      const corner = svg("g", { class: "corner" });
      corner.append(svg("rect", { x: x - 4, y: y - 4, width: 8, height: 8 }), svg("circle", { class: "grip", cx: x, cy: y, r: 12 }));
      corner.addEventListener("pointerdown", (event) => begin(event, view, [box[1 - i][across], box[1 - j][down]]));
      view.append(corner);
    }
  }

  function follow(event, view, scale) {
    if (!drag || drag.view !== view || !box) return;
    const place = placeOf(event, view);
    drag.moved = drag.moved || Math.hypot(place[0] - drag.from[0], place[1] - drag.from[1]) > kLeastDrag;
    if (!drag.moved) return;
    const now = scale.place(place);
    [scale.across, scale.down].forEach((axis, i) => {
      [box[0][axis], box[1][axis]] = [drag.fixed[i], now[i]].map((x) => Number(x.toFixed(2))).sort((p, q) => p - q);
    });
    onChange();
  }

  return {
    draw, follow,
    end: () => (drag = null),
    // On the empty drawing.
    press(event, view, scale) {
      if (box && event.button === 0) begin(event, view, scale.place(placeOf(event, view)));
    },
    isDrawn: () => box !== null,
    box: () => box,
    set(wanted) {
      box = wanted;
      onChange();
    },
  };
}
