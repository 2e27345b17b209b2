// Joins the parts: reads the film, unpacks its layers, and draws whenever something changes.

const film = JSON.parse(document.getElementById("film").textContent);
const view = { settings: settingsOfFilm(film), asStops: false, isBefore: false, isHeld: false };
const element = (id) => document.getElementById(id);
const drawer = makeDrawer(element("frame"), film, location.hash === "#canvas");
const ownMatrices = film.layers.map(() => kUnit);

const rows = film.fixtures.map((fixture, i) => makeFixtureRow(fixture, view.settings[i], changed));
rows.forEach((row) => element("fixtures").append(row.element));
const showReadings = makeReadings(film, changed);

let isWaiting = false;
function changed() {
  if (isWaiting) return;
  isWaiting = true;
  requestAnimationFrame(() => {
    isWaiting = false;
    showAll();
  });
}

function showAll() {
  const showsOwn = view.isBefore || view.isHeld;
  const matrices = showsOwn ? ownMatrices : allMatrices(film, view.settings);
  drawer.draw(matrices, view.asStops);
  showReadings(matrices);
  rows.forEach((row, i) => row.update(isLit(view.settings, i)));
  element("map").setAttribute("aria-pressed", view.asStops);
  element("before").setAttribute("aria-pressed", view.isBefore);
  element("hold").classList.toggle("held", view.isHeld);
  element("legend").hidden = !view.asStops;
  element("badge").hidden = !showsOwn;
  element("badge").textContent = "before";
  element("command").textContent = commandText(film, view.settings);
  const lit = film.fixtures.filter((f, i) => isLit(view.settings, i)).map((f) => f.name);
  element("frame").setAttribute("aria-label", `The frame, ${showsOwn ? "as rendered" : `lit by ${lit.join(", ") || "nothing"}`}${view.asStops ? ", as a map of stops" : ""}`);
}

function reset() {
  settingsOfFilm(film).forEach((own, i) => Object.assign(view.settings[i], own));
  changed();
}

function toggle(key) {
  view[key] = !view[key];
  changed();
}

function hold(isHeld) {
  if (view.isHeld === isHeld) return;
  view.isHeld = isHeld;
  changed();
}

function listen() {
  element("map").addEventListener("click", () => toggle("asStops"));
  element("before").addEventListener("click", () => toggle("isBefore"));
  element("reset").addEventListener("click", reset);
  const button = element("hold");
  button.addEventListener("pointerdown", () => hold(true));
  for (const type of ["pointerup", "pointercancel", "pointerleave", "blur"]) button.addEventListener(type, () => hold(false));
  element("copy").addEventListener("click", () => navigator.clipboard?.writeText(element("command").textContent));
  const isHoldKey = (event) => event.key === "c" || event.key === "C" || (event.target === button && event.key === " ");
  document.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.target.tagName === "SELECT") return;
    if (isHoldKey(event)) hold(true);
    else if (event.repeat) return;
    else if (event.key === "s" || event.key === "S") toggle("asStops");
    else if (event.key === "b" || event.key === "B") toggle("isBefore");
    else if (event.key === "r" || event.key === "R") reset();
  });
  document.addEventListener("keyup", (event) => {
    if (isHoldKey(event)) hold(false);
  });
}

function makeLegend() {
  const scale = element("scale");
  const context = scale.getContext("2d");
  for (let x = 0; x < scale.width; x++) {
    const [r, g, b] = viridis(x / (scale.width - 1)).map((c) => Math.round(255 * Math.max(0, Math.min(1, c))));
    context.fillStyle = `rgb(${r}, ${g}, ${b})`;
    context.fillRect(x, 0, 1, scale.height);
  }
  for (let stops = kMapFirst; stops <= kMapLast; stops++) element("ticks").append(make("span", {}, stops > 0 ? `+${stops}` : String(stops).replace("-", "−")));
}

function exposureText() {
  const shutter = film.shutter_s < 0.4 ? `1/${Math.round(1 / film.shutter_s)} s` : `${film.shutter_s} s`;
  return `f/${Number(film.f_number.toPrecision(3))}, ${shutter}, ISO ${Math.round(film.iso)}, white ${Math.round(film.white_k)} K, ${film.passes} passes`;
}

async function start() {
  element("exposure").textContent = exposureText();
  makeLegend();
  listen();
  showAll();
  const texts = [...document.querySelectorAll("script.layer")];
  for (let g = 0; g < texts.length; g++) {
    drawer.layer(g, await unpackLayer(texts[g].textContent, film.layers[g], film.width, film.height));
    texts[g].remove();
    showAll();
  }
  element("loading").hidden = true;
  document.body.dataset.ready = drawer.kind;
}

// For tests and for the curious: the shown pixels, and the settings by the fixture's name.
window.dapple = {
  pixels: () => drawer.pixels(),
  set(name, values) {
    const i = film.fixtures.findIndex((f) => f.name === name);
    const { cct_k: cct, ...others } = values;
    Object.assign(view.settings[i], others);
    if (cct !== undefined) view.settings[i].entry = entryAt(film.fixtures[i], cct);
    showAll();
  },
  reset,
};

start().catch((error) => {
  element("loading").textContent = `The light could not be unpacked: ${error.message}. A browser of 2023 or later is needed.`;
});
