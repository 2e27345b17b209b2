// What the hand does in the frame: nothing, move the camera, hold the light meter, or draw a region.
// Each mode has press, drag, release and step (for arrow keys); places are shares of the frame's width
// and height from the left and the top.

function makeHand(stage, modes) {
  const marks = svg("svg", { id: "marks", viewBox: "0 0 1 1", preserveAspectRatio: "none", "aria-hidden": "true" });
  stage.append(marks);
  let mode = "look";
  let drag = null;
  let cross = [0.5, 0.5];
  const buttons = new Map();

  function placeOf(event) {
    const box = stage.getBoundingClientRect();
    return [(event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height].map((x) => Math.min(0.9999, Math.max(0, x)));
  }

  function choose(wanted) {
    mode = wanted;
    for (const [name, button] of buttons) button.setAttribute("aria-pressed", name === mode);
    stage.dataset.hand = mode;
    element("hand-hint").textContent = modes[mode].hint;
    for (const [name, other] of Object.entries(modes)) if (other.show) other.show(name === mode);
    drawCross();
  }

  // Where the keyboard is, in modes that have a place.
  function drawCross() {
    marks.querySelector(".cross")?.remove();
    if (!modes[mode].hasPlace) return;
    const [x, y] = cross;
    marks.append(svg("path", { class: "cross", d: `M${x - 0.012} ${y}H${x + 0.012}M${x} ${y - 0.018}V${y + 0.018}` }));
  }
  function moveCross(place) {
    cross = place.map((x) => Math.min(0.999, Math.max(0, x)));
    drawCross();
  }

  for (const [name, { words }] of Object.entries(modes)) {
    const button = make("button", { type: "button", "aria-pressed": name === mode, id: `hand-${name}` }, words);
    button.addEventListener("click", () => choose(mode === name ? "look" : name));
    buttons.set(name, button);
    element("hands").append(button);
  }

  stage.addEventListener("pointerdown", (event) => {
    const now = modes[mode];
    if (!now.press || event.button !== 0) return;
    event.preventDefault();
    stage.focus();
    stage.setPointerCapture(event.pointerId);
    moveCross(placeOf(event));
    drag = now.press(placeOf(event), event);
  });
  stage.addEventListener("pointermove", (event) => {
    if (!drag) return;
    moveCross(placeOf(event));
    modes[mode].drag?.(drag, placeOf(event), event);
  });
  const end = (event) => {
    if (drag) modes[mode].release?.(drag, placeOf(event));
    drag = null;
  };
  stage.addEventListener("pointerup", end);
  stage.addEventListener("pointercancel", end);
  stage.addEventListener("wheel", (event) => {
    if (!modes[mode].wheel) return;
    event.preventDefault();
    modes[mode].wheel(Math.sign(event.deltaY));
  }, { passive: false });
  stage.addEventListener("keydown", (event) => {
    const step = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[event.key];
    if (event.key === "Escape") return choose("look");
    if (!step && !["Enter", " ", "+", "-"].includes(event.key)) return;
    if (!modes[mode].step) return;
    event.preventDefault();
    const size = event.shiftKey ? 0.004 : 0.02;
    if (step && modes[mode].hasPlace) moveCross(cross.map((x, i) => x + step[i] * size));
    modes[mode].step(step || event.key, cross);
  });
  choose("look");
  return { choose, marks, mode: () => mode };
}
