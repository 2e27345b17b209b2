// Meters, regions and one ratio, as tables that follow the sliders.

const kFullStops = ["0.5", "0.7", "1", "1.4", "2", "2.8", "4", "5.6", "8", "11", "16", "22", "32", "45", "64"];

// As hand meters show it: the full stop below, and tenths of a stop.
function fStopText(f) {
  const above = 2 * Math.log2(f) + 2;
  if (!(above > -0.05 && above < kFullStops.length - 0.05)) return f > 0 ? `f/${f.toPrecision(3)}` : "dark";
  const tenths = Math.round(10 * above);
  const rest = tenths % 10;
  return `f/${kFullStops[Math.floor(tenths / 10)]}${rest ? ` + ${rest}/10` : ""}`;
}

function stopsText(stops) {
  if (!Number.isFinite(stops)) return "dark";
  const shown = Math.abs(stops) < 0.05 ? 0 : stops;
  return `${shown < 0 ? "−" : "+"}${Math.abs(shown).toFixed(1)}`;
}

function errorText(reading) {
  if (reading.error === null) return "not known yet";
  if (!(reading.total > 0)) return "";
  const stops = reading.error / (reading.total * Math.LN2);
  return stops < 0.005 ? "< 0.01" : `± ${stops.toFixed(2)}`;
}

function luxText(lux) {
  return lux >= 100 ? lux.toFixed(0) : lux.toPrecision(3);
}

// The cells of one row, and whether the light has changed.
function meterCells(film, spot, now) {
  const stops = Math.log2(now.total) - spot.zero;
  return [luxText(now.total), fStopText(film.f_number * 2 ** (stops / 2)), stopsText(stops), errorText(now)];
}
function regionCells(spot, now) {
  return [now.total >= 100 ? now.total.toFixed(0) : now.total.toPrecision(3), "", stopsText(Math.log2(now.total) - spot.zero), errorText(now)];
}

function makeTable(caption, unit, spots) {
  const head = make("tr", {}, ...[caption, unit, caption === "Meters" ? "f-stop" : "", "stops", "error, stops", "change"].map((text) => make("th", { scope: "col" }, text)));
  const body = make("tbody", {});
  const rows = spots.map((spot) => {
    const cells = [0, 1, 2, 3, 4].map(() => make("td", {}));
    body.append(make("tr", {}, make("th", { scope: "row" }, spot.name), ...cells));
    return cells;
  });
  return { element: make("table", {}, make("thead", {}, head), body), rows };
}

function fillRow(cells, texts, change) {
  [...texts, Math.abs(change) < 0.05 ? "" : stopsText(change)].forEach((text, i) => {
    cells[i].textContent = text;
  });
  cells[4].classList.toggle("moved", Math.abs(change) >= 0.05);
}

// The parts of a ratio: all light at a meter, or one fixture.
function layersOf(film, name) {
  const fixture = film.fixtures.find((f) => f.name === name);
  return fixture ? fixture.layers : film.layers.map((_, g) => g);
}

function makeReadings(film, onChange) {
  const place = document.getElementById("readings");
  const meters = makeTable("Meters", "lx", film.meters);
  const regions = makeTable("Regions", "cd/m²", film.regions);
  if (film.meters.length) place.append(meters.element);
  if (film.regions.length) place.append(regions.element);
  if (!film.meters.length && !film.regions.length) place.append("This set has no meters and no regions.");
  const [a, b, at, output] = ["ratio-a", "ratio-b", "ratio-at", "ratio"].map((id) => document.getElementById(id));
  for (const select of [a, b]) {
    for (const f of film.fixtures) select.append(make("option", { value: f.name }, f.name));
    select.append(make("option", { value: "" }, "all light"));
    select.addEventListener("change", onChange);
  }
  chooseRatio(film, a, b, at);
  at.addEventListener("change", onChange);
  document.querySelector(".ratio").hidden = film.meters.length === 0 || film.fixtures.length < 2;
  const own = film.layers.map(() => kUnit);
  return (matrices) => {
    film.meters.forEach((spot, i) => {
      const now = readSpot(film, spot, matrices);
      fillRow(meters.rows[i], meterCells(film, spot, now), Math.log2(now.total / readSpot(film, spot, own).total));
    });
    film.regions.forEach((spot, i) => {
      const now = readSpot(film, spot, matrices);
      fillRow(regions.rows[i], regionCells(spot, now), Math.log2(now.total / readSpot(film, spot, own).total));
    });
    if (!film.meters.length) return;
    const [first, second] = at.value.split(" ").map((m) => readSpot(film, film.meters[Number(m)], matrices).layers);
    const sum = (name, layers) => layersOf(film, name).reduce((total, g) => total + layers[g], 0);
    const ratio = sum(a.value, first) / sum(b.value, second ?? first);
    output.textContent = ratio > 0 && Number.isFinite(ratio) ? `${ratio.toPrecision(3)} : 1, ${stopsText(Math.log2(ratio))} stops` : "one of the two is dark";
  };
}

// Where a ratio may be taken. Key and fill, each at its own meter, come first; without them the two
// fixtures that send most light to the first meter.
function chooseRatio(film, a, b, at) {
  if (film.ratio && film.ratio.meters[0] !== film.ratio.meters[1]) {
    const names = film.ratio.meters.map((m) => film.meters[m].name);
    at.append(make("option", { value: film.ratio.meters.join(" ") }, `${names[0]} : ${names[1]}`));
  }
  film.meters.forEach((m, i) => at.append(make("option", { value: String(i) }, m.name)));
  if (!film.ratio) {
    chooseBrightest(film, a, b);
    return;
  }
  [a.value, b.value] = film.ratio.fixtures.map((f) => film.fixtures[f].name);
  at.value = at.options[0].value.includes(" ") ? at.options[0].value : String(film.ratio.meters[0]);
}

// The two fixtures that send most light to the first meter.
function chooseBrightest(film, a, b) {
  if (!film.meters.length) return;
  const layers = readSpot(film, film.meters[0], film.layers.map(() => kUnit)).layers;
  const light = (f) => f.layers.reduce((total, g) => total + layers[g], 0);
  const order = [...film.fixtures].sort((x, y) => light(y) - light(x));
  a.value = order[0].name;
  b.value = (order[1] || order[0]).name;
}
