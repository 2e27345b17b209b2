// What the film says: light at the meters, ratios, regions, what is in the frame, shadows and whites.
// The program judges; the page asks again whenever the film is better.

const kJudgeEvery = 1500; // ms

const percentText = (share) => (share === null ? "not known yet" : share > 0 && share < 0.001 ? "under 0.1 %" : `${(100 * share).toFixed(share < 0.1 ? 1 : 0)} %`);
// Without ±, the error is not known yet or less than half of the last digit.
const plusMinus = (error, digits) => (Number((error ?? 0).toFixed(digits)) > 0 ? ` ± ${error.toFixed(digits)}` : "");
const withError = (value, error, digits, unit) => (value === null ? "not known yet" : `${value.toFixed(digits)}${unit}${plusMinus(error, digits)}`);

function judgeTable(caption, heads, rows) {
  if (rows.length === 0) return [];
  const head = make("tr", {}, ...heads.map((text) => make("th", { scope: "col" }, text)));
  const body = rows.map(([name, ...cells]) => make("tr", {}, make("th", { scope: "row" }, name), ...cells.map((text) => make("td", {}, text ?? ""))));
  return [make("table", { class: heads.length > 4 ? "wide" : "" }, make("caption", {}, caption), make("thead", {}, head), make("tbody", {}, ...body))];
}

function moveWords(moves) {
  if (!moves) return "";
  return [["it", moves.thing], ["the camera", moves.camera]].filter(([, move]) => move)
    .map(([what, { way, distance_m: metres }]) => `move ${what} ${metres.toFixed(2)} m ${way}`).join(", or ");
}

function judgeTables(judge) {
  const metered = judge.light.map((m) => [m.meter, m.f_stop ? `f/${m.f_stop}` : "dark", m.stops_from_camera === null ? "" : stopsText(m.stops_from_camera), m.word ?? ""]);
  const ratios = judge.ratios.map((r) => [r.name, r.value === null ? r.why || "not known yet" : `${withError(r.value, r.word === "not sure yet" ? null : r.stderr, 1, "")} : 1`, r.word ?? ""]);
  const regions = [...judge.regions, ...(judge.sides || [])].map((r) => [r.name, r.mean_luminance === null ? "not known yet" : `${r.mean_luminance.toPrecision(3)} cd/m²`,
    r.texture_stops === null ? r.why?.texture_stops || "not known yet" : `${withError(r.texture_stops, r.texture_stderr, 2, "")} stops, ${r.texture_word}`,
    r.patch_cm === null ? "" : `${r.patch_cm.toFixed(0)} cm`, r.cover === null ? "" : percentText(r.cover), percentText(r.deep_shadow_share), percentText(r.clipped_share)]);
  const things = (judge.in_frame || []).map((t) => [`${t.name}, ${t.kind}`, percentText(t.share), t.seen, moveWords(t.move_out)]);
  const spots = (judge.hot_spots || []).map((s) => [s.where, s.stops === null ? "" : `${stopsText(s.stops)} stops`, s.fixture ?? ""]);
  return [
    ...judgeTable("Light at the meters", ["meter", "reads", "stops from the exposure", ""], metered),
    ...judgeTable("Ratios", ["", "ratio", ""], ratios),
    ...judgeTable("Regions", ["region", "level", "texture", "patches", "cover", "deep shadow", "white"], regions),
    ...judgeTable("In the frame, and should perhaps not be", ["thing", "of the frame", "seen", "to take it out"], things),
    ...judgeTable("Hot spots", ["where", "about mid-grey", "fixture"], spots),
  ];
}

// The colours of the stops map (picture.js), from dark to light.
function drawScale(canvas) {
  const context = canvas.getContext("2d");
  for (let x = 0; x < canvas.width; x++) {
    const colour = viridis(x / (canvas.width - 1)).map((c) => Math.round(255 * Math.max(0, Math.min(1, c))));
    context.fillStyle = `rgb(${colour.join(", ")})`;
    context.fillRect(x, 0, 1, canvas.height);
  }
}

function makeJudge(desk, marks) {
  let newest = null, judged = null, isAsking = false, askedAt = 0, isOn = false;
  const place = element("said");

  async function ask() {
    if (!isOn || isAsking || !newest || newest.moving || newest.number === judged?.number) return;
    const wait = judged?.version === newest.version ? askedAt + kJudgeEvery - performance.now() : 0;
    if (wait > 0) return setTimeout(ask, wait + 1);
    isAsking = true;
    const number = newest.number;
    try {
      const answer = await fetch("judge");
      if (answer.ok) judged = { number, ...(await answer.json()) };
      show();
    } catch {
      // The news say that the program is gone.
    }
    askedAt = performance.now();
    isAsking = false;
    ask();
  }

  function show() {
    if (!judged) return place.replaceChildren("Nothing to judge yet.");
    const { judge, passes, version, width } = judged;
    const isKnown = judge.picture.deep_shadow_share !== null;
    const picture = !isKnown ? "Shadows and whites are not known yet." : `Of the picture, ${percentText(judge.picture.deep_shadow_share)} is in deep shadow and ${percentText(judge.picture.clipped_share)} is white.`;
    place.dataset.version = version;
    place.replaceChildren(make("p", {}, `After ${passes} pass${passes === 1 ? "" : "es"} at ${width} px. ${picture}`), ...judgeTables(judge));
    drawMarks();
  }

  // Regions and things, by name, over the frame.
  function drawMarks() {
    marks.querySelectorAll(".marked").forEach((mark) => mark.remove());
    element("mark-names").replaceChildren();
    if (!isOn || !judged) return;
    const size = desk.drawing()?.frame;
    const boxes = (state.set?.tables || []).filter((t) => t.kind === "region" && Array.isArray(t.keys.rect_px))
      .map((t) => [t.name || "region", t.keys.rect_px, size, "region"]);
    const things = judged.judge.in_frame || [];
    const scale = [judged.things_width, size ? judged.things_width * size[1] / size[0] : 1];
    for (const thing of things) boxes.push([thing.name, thing.box_px, scale, "thing"]);
    for (const [name, [x0, y0, x1, y1], [w, h], kind] of boxes) {
      marks.append(svg("rect", { class: `marked ${kind}`, x: x0 / w, y: y0 / h, width: (x1 - x0) / w, height: (y1 - y0) / h }));
      const label = make("span", {}, name);
      label.style.left = `${100 * x0 / w}%`;
      label.style.top = `${100 * y0 / h}%`;
      element("mark-names").append(label);
    }
  }

  element("judge").addEventListener("click", () => {
    isOn = element("judge").getAttribute("aria-pressed") !== "true";
    element("judge").setAttribute("aria-pressed", isOn);
    place.hidden = element("said-head").hidden = !isOn;
    if (isOn) desk.closeSeek(); // it has the place of the figures
    if (isOn) bringToTop(element("said-head"));
    show();
    if (!isOn) drawMarks();
    ask();
  });
  return {
    onFilm(news) {
      newest = news;
      ask();
    },
    drawMarks,
  };
}
