// In which order the variants are shown, and which of them: by the values of the knobs and by ranges of
// the measures.

const kMostBoxes = 12; // a knob with more values gets a range

function option(text, value) {
  return make("option", { value }, text);
}

function optionGroup(label, options) {
  const group = make("optgroup", { label });
  group.append(...options);
  return group;
}

// The measures as options: first those that the variants are ranked by.
function measureOptions(night) {
  const of = (list) => list.map((m) => option(withUnit(m, m.words).replace(` ${m.unit}`, m.unit ? ` (${m.unit})` : ""), m.name));
  const ranked = night.measures.filter((m) => m.wish);
  const others = night.measures.filter((m) => !m.wish);
  const groups = [];
  if (ranked.length) groups.push(optionGroup("ranked by", of(ranked)));
  if (others.length) groups.push(optionGroup("also measured", of(others)));
  return groups;
}

// A filter is { accepts(variant), reset(), element }.
function makeBoxFilter(knob, values, onChange) {
  const boxes = values.map((value) => {
    const input = make("input", { type: "checkbox", checked: true });
    input.addEventListener("change", onChange);
    return { value, input, row: make("label", { class: "box" }, input, ` ${value}`) };
  });
  const element = make("fieldset", {}, make("legend", {}, knob.words), ...boxes.map((b) => b.row));
  return {
    element,
    accepts: (variant) => boxes.some((b) => b.input.checked && b.value === variant.words[knob.address]),
    reset: () => boxes.forEach((b) => (b.input.checked = true)),
  };
}

// `numberOf` returns the number that a variant has, or null.
function makeRangeFilter(title, unit, numberOf, onChange) {
  const inputs = ["at least", "at most"].map((word) => {
    const input = make("input", { type: "number", step: "any", inputMode: "decimal", "aria-label": `${title}: ${word}${unit ? `, ${unit}` : ""}` });
    input.addEventListener("input", onChange);
    return { input, row: make("label", {}, `${word} `, input) };
  });
  const element = make("fieldset", { class: "range" }, make("legend", {}, unit ? `${title} (${unit})` : title), ...inputs.map((i) => i.row));
  return {
    element,
    accepts(variant) {
      const [low, high] = inputs.map(({ input }) => (input.value === "" || Number.isNaN(input.valueAsNumber) ? null : input.valueAsNumber));
      if (low === null && high === null) return true;
      const number = numberOf(variant);
      if (!isKnown(number)) return false;
      return (low === null || number >= low) && (high === null || number <= high);
    },
    reset: () => inputs.forEach(({ input }) => (input.value = "")),
  };
}

function makeKnobFilter(night, knob, onChange) {
  const values = [...new Set(night.variants.map((v) => v.words[knob.address]))];
  if (values.length < 2) return null;
  const numbers = night.variants.map((v) => Number(v.values[knob.address]));
  if (values.length > kMostBoxes && numbers.every(Number.isFinite)) {
    return makeRangeFilter(knob.words, "", (v) => Number(v.values[knob.address]), onChange);
  }
  return makeBoxFilter(knob, values, onChange);
}

function makeMeasureFilter(measure, onChange) {
  return makeRangeFilter(measure.words, measure.unit, (v) => {
    const value = v.measures?.[measure.name];
    return isKnown(value) ? measure.per_unit * value : null;
  }, onChange);
}

function makeFilters(night, place, onChange) {
  const knobs = night.knobs.map((k) => makeKnobFilter(night, k, onChange)).filter(Boolean);
  const of = (isRanked) => night.measures.filter((m) => Boolean(m.wish) === isRanked).map((m) => makeMeasureFilter(m, onChange));
  const [ranked, others] = [of(true), of(false)];
  place.append(...knobs.map((f) => f.element), ...ranked.map((f) => f.element));
  if (others.length) place.append(make("details", { class: "inner" }, make("summary", {}, "Ranges of the other measures"), ...others.map((f) => f.element)));
  const all = [...knobs, ...ranked, ...others];
  return { accepts: (variant) => all.every((f) => f.accepts(variant)), reset: () => all.forEach((f) => f.reset()) };
}

// What variants are ordered by: the place, the plan, the noise, or a measure.
const kOrders = { "@place": (v) => v.rank, "@plan": (v) => v.index, "@noise": (v) => v.noise_percent };

function orderOptions(night) {
  const own = [option("order of the list", "@plan"), option("noise", "@noise")];
  if (night.variants.some((v) => v.rank)) own.unshift(option("place", "@place"));
  return [...own, ...measureOptions(night)];
}

// Variants without the number come last, whichever way the others are.
function ordered(variants, key, direction) {
  const numberOf = kOrders[key] || ((v) => v.measures?.[key]);
  return [...variants].sort((a, b) => {
    const [x, y] = [numberOf(a), numberOf(b)];
    if (!isKnown(x) || !isKnown(y)) return isKnown(y) - isKnown(x) || a.index - b.index;
    return direction * (x - y) || a.index - b.index;
  });
}
