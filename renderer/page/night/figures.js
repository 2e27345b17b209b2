// Figures with their errors, as texts. A variant's value is shown in the unit of its measure.

const kMostDecimals = 6;
const isKnown = (x) => x !== null && x !== undefined;

function decimalsFor(number, digits) {
  return Math.abs(number) > 0 ? digits - 1 - Math.floor(Math.log10(Math.abs(number))) : digits;
}

function fixedText(value, decimals) {
  const size = Math.abs(value).toFixed(Math.max(0, decimals));
  return value < 0 && Number(size) !== 0 ? `−${size}` : size;
}

// "0.677 ± 0.005", as figure_text() of variants/knob_words.h: the error with one digit, or two if the
// first is 1, and the value with at most four.
function figureText(value, error) {
  const without = Math.min(decimalsFor(value, 3), kMostDecimals);
  if (!isKnown(error)) return fixedText(value, without);
  if (!(error > 0)) return `${fixedText(value, without)} ± 0`;
  const beginsWith1 = error * 10 ** decimalsFor(error, 1) < 1.95;
  const wanted = decimalsFor(error, beginsWith1 ? 2 : 1);
  const shown = Math.max(0, Math.min(wanted, decimalsFor(value, 4), kMostDecimals));
  const least = 10 ** -shown;
  return `${fixedText(value, shown)} ± ${error < least / 2 ? `< ${fixedText(least, shown)}` : fixedText(error, shown)}`;
}

function withError(value, error, scale = 1) {
  if (!isKnown(value)) return "not known";
  return figureText(scale * value, isKnown(error) ? scale * error : null);
}

function withUnit(measure, text) {
  return measure.unit ? `${text} ${measure.unit}` : text;
}

// b - a with the error of both (E132); null if either is not known.
function differenceOf(a, b, measure) {
  const [from, to] = [a.measures[measure.name], b.measures[measure.name]];
  if (!isKnown(from) || !isKnown(to)) return null;
  const [first, second] = [a.shown_errors[measure.name], b.shown_errors[measure.name]];
  const error = isKnown(first) && isKnown(second) ? Math.hypot(first, second) : null;
  const value = to - from;
  const isTold = value !== 0 && error !== null && Math.abs(value) > 2 * error;
  return { value, error, isTold, errors: error > 0 ? Math.abs(value) / error : 0 };
}

// "+0.12 ± 0.03"; "same within error" if it is not beyond two standard errors.
function differenceText(difference, measure) {
  if (!difference) return "not known";
  const text = withError(difference.value, difference.error, measure.per_unit);
  return text.startsWith("−") ? text : `+${text}`;
}

function differenceWord(difference, measure) {
  if (!difference) return "";
  if (difference.value === 0) return "the same";
  if (difference.error === null) return "error not known";
  if (!difference.isTold) return "same within error";
  return difference.value > 0 ? measure.more : measure.less;
}

// "3", "3=" if others have the same place.
function placeText(variant) {
  if (!variant.place) return "";
  return variant.tied ? `${variant.place}=` : String(variant.place);
}

function placeWords(variant) {
  if (!variant.place) return "without a place";
  return variant.tied ? `place ${variant.place}, shared` : `place ${variant.place}`;
}

function noiseText(variant) {
  const passes = `${variant.passes} ${variant.passes === 1 ? "pass" : "passes"}`;
  return isKnown(variant.noise_percent) ? `${passes}, noise ${variant.noise_percent.toFixed(1)} %` : `${passes}, noise not known yet`;
}

function wishText(measure) {
  const { want, weight } = measure.wish;
  const wish = typeof want === "number" ? `near ${figureText(want * measure.per_unit)}` : `the ${want} the better`.replace("the least", "the less").replace("the most", "the more");
  return `${withUnit(measure, wish)}, weight ${weight}`;
}
