// Which knob moved a measure: for each knob its levels as points with their errors, on one scale, and
// the same as figures. The figures are computed by dapple (variants/main_effects.h).

const kSvg = "http://www.w3.org/2000/svg";
const kPlotWidth = 110;
const kPlotHeight = 16;

function svgPart(tag, attributes) {
  const part = document.createElementNS(kSvg, tag);
  for (const [key, value] of Object.entries(attributes)) part.setAttribute(key, value);
  return part;
}

// The ends of the scale: all points with two errors, and the mean.
function scaleOf(effect) {
  const ends = [effect.mean];
  for (const knob of effect.knobs) {
    for (const level of knob.levels) ends.push(level.mean - 2 * (level.shown_error || 0), level.mean + 2 * (level.shown_error || 0));
  }
  const [low, high] = [Math.min(...ends), Math.max(...ends)];
  const width = high > low ? high - low : 1;
  return (value) => 5 + ((kPlotWidth - 10) * (value - low)) / width;
}

function makePlot(level, mean, place) {
  const plot = svgPart("svg", { width: kPlotWidth, height: kPlotHeight, viewBox: `0 0 ${kPlotWidth} ${kPlotHeight}`, "aria-hidden": "true" });
  const middle = kPlotHeight / 2;
  const error = 2 * (level.shown_error || 0);
  plot.append(
    svgPart("line", { x1: place(mean), x2: place(mean), y1: 0, y2: kPlotHeight, class: "mean" }),
    svgPart("line", { x1: place(level.mean - error), x2: place(level.mean + error), y1: middle, y2: middle, class: "error" }),
    svgPart("circle", { cx: place(level.mean), cy: middle, r: 4 }),
  );
  return plot;
}

function movedText(knob, measure) {
  if (knob.cannot_be_told_from.length) return `cannot be told apart from ${knob.cannot_be_told_from.join(" and ")}`;
  if (!isKnown(knob.moved)) return "has one value among these variants";
  const moved = withUnit(measure, withError(knob.moved, knob.moved_shown_error, measure.per_unit));
  if (!isKnown(knob.beyond_noise)) return `moved it by ${moved}; the error is not known`;
  return knob.beyond_noise ? `moved it by ${moved}` : `${moved}: within the noise`;
}

function makeKnobTable(knob, effect, measure, place) {
  const rows = knob.levels.map((level) =>
    make("tr", {}, make("th", { scope: "row" }, level.level), make("td", {}, makePlot(level, effect.mean, place)), make("td", {}, withError(level.mean, level.shown_error, measure.per_unit))));
  return make("table", {}, make("caption", { class: "unseen" }, `${measure.words} by ${knob.words}`), make("tbody", {}, ...rows));
}

function showEffect(night, name, place) {
  const effect = night.effects.find((e) => e.measure === name);
  const measure = night.measures.find((m) => m.name === name);
  if (!effect) {
    place.replaceChildren(make("p", {}, "Not known of any variant yet."));
    return;
  }
  const scale = scaleOf(effect);
  const knobs = [...effect.knobs].sort((a, b) => (b.moved || 0) - (a.moved || 0));
  const parts = knobs.map((knob) =>
    make("div", { class: "knob" }, make("h3", {}, knob.words, knob.straight_line ? make("span", { class: "quiet" }, " (as a straight line)") : ""), make("p", { class: knob.beyond_noise ? "" : "quiet" }, movedText(knob, measure)), makeKnobTable(knob, effect, measure, scale)));
  const notes = [effect.explained, ...night.cannot_be_told_apart].filter(Boolean);
  if (effect.variants < night.variants.length) notes.push(`Known of ${effect.variants} of ${night.variants.length} variants.`);
  place.replaceChildren(make("p", { class: "lead" }, effect.sentence), ...parts, ...notes.map((text) => make("p", { class: "quiet" }, text)));
}
