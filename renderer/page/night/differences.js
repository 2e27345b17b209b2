// What is different between two variants, in words and figures.

function changedKnobs(night, a, b) {
  return night.knobs.filter((k) => a.words[k.address] !== b.words[k.address]);
}

function changedText(night, a, b) {
  const changed = changedKnobs(night, a, b);
  if (a === b) return "A and B are the same variant.";
  if (!changed.length) return "Nothing of the list is different.";
  return `From A to B: ${changed.map((k) => `${k.words} ${a.words[k.address]} → ${b.words[k.address]}`).join("; ")}.`;
}

// "back wall: more broken up, by 0.061 ± 0.006 stops"
function toldSentence(measure, difference) {
  const amount = withUnit(measure, withError(Math.abs(difference.value), difference.error, measure.per_unit));
  return `${measure.words}: ${differenceWord(difference, measure)}, by ${amount}`;
}

// Of those that can be told, the surest first.
function toldMeasures(night, a, b) {
  return night.measures
    .map((measure) => ({ measure, difference: differenceOf(a, b, measure) }))
    .filter(({ difference }) => difference && difference.isTold)
    .sort((x, y) => Boolean(y.measure.wish) - Boolean(x.measure.wish) || y.difference.errors - x.difference.errors);
}

function scoreSentence(a, b) {
  if (!a.rank || !b.rank || a === b) return "";
  if (a.place === b.place && a.tied) return `They share place ${a.place}: their scores cannot be told from that of its first.`;
  return `A has ${placeWords(a)}, B has ${placeWords(b)}.`;
}

function makeDifferenceTable(night, a, b) {
  const head = make("tr", {}, ...["Measure", "A", "B", "B less A", ""].map((text) => make("th", { scope: "col" }, text)));
  const cell = (variant, measure) => make("td", {}, withError(variant.measures?.[measure.name], variant.shown_errors?.[measure.name], measure.per_unit));
  const rows = night.measures.map((measure) => {
    const difference = differenceOf(a, b, measure);
    return make("tr", { class: difference?.isTold ? "told" : "" }, make("th", { scope: "row" }, measure.words, make("span", { class: "quiet" }, measure.unit ? ` ${measure.unit}` : "")), cell(a, measure), cell(b, measure), make("td", {}, differenceText(difference, measure)), make("td", {}, differenceWord(difference, measure)));
  });
  return make("table", {}, make("caption", { class: "unseen" }, "All measures of A and B"), make("thead", {}, head), make("tbody", {}, ...rows));
}

function showDifferences(night, a, b, place) {
  const told = toldMeasures(night, a, b);
  const list = make("ul", {}, ...told.slice(0, 8).map(({ measure, difference }) => make("li", {}, toldSentence(measure, difference))));
  const lead = told.length ? "What it did, beyond two standard errors; one measure in twenty gets there by chance:" : "No measure differs beyond two standard errors.";
  place.replaceChildren(
    make("div", { class: "words" }, make("p", { class: "lead" }, changedText(night, a, b)), make("p", {}, lead), list, make("p", {}, scoreSentence(a, b)), make("p", { class: "quiet" }, night.difference_rule)),
    make("div", { class: "numbers" }, makeDifferenceTable(night, a, b)));
}
