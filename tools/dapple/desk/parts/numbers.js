// Numbers as people type them: "0,5", "155 cm", "5 ft 1 in", "60 %", "-1 stop", "1/60", "f/4". What
// the set file understands in a field is understood here (base/written_number.h). What is not
// understood is told, never guessed.

const kLengths = { metres: 1, meters: 1, metre: 1, meter: 1, feet: 0.3048, foot: 0.3048, inches: 0.0254, inch: 0.0254, mm: 0.001, cm: 0.01, ft: 0.3048, in: 0.0254, m: 1, "'": 0.3048, '"': 0.0254 };
const inMillimetres = Object.fromEntries(Object.entries(kLengths).map(([name, metres]) => [name, 1000 * metres]));
// How many of the field's unit each written one is, and what to type.
const kTyped = {
  m: { units: kLengths, like: "a length such as 0.5, 50 cm or 1 ft 8 in" },
  mm: { units: inMillimetres, like: "a length in mm such as 30, or 3 cm" },
  "°": { units: { degrees: 1, degree: 1, deg: 1, "°": 1 }, like: "an angle such as 20 or 20°" },
  s: { units: { seconds: 1, second: 1, sec: 1, ms: 0.001, min: 60, s: 1, '"': 1 }, like: "a time such as 1/60, 0.5 or 2 s" },
  share: { units: { percent: 0.01, "per cent": 0.01, "%": 0.01 }, like: "a share such as 0.5, 50 % or -1 stop" },
  "%": { units: { percent: 1, "per cent": 1, "%": 1 }, like: "a percentage such as 60" },
  K: { units: { kelvin: 1, k: 1 }, like: "kelvins: 3200 is tungsten, 5600 daylight" },
  lm: { units: { lumens: 1, lumen: 1, lm: 1 }, like: "lumens, such as 900 or 900 lm" },
  cd: { units: { candela: 1, cd: 1 }, like: "candelas, such as 12000" },
  lx: { units: { lux: 1, lx: 1 }, like: "lux, such as 1800" },
  "cd/m²": { units: { "cd/m2": 1, "cd/m²": 1, nits: 1, nit: 1 }, like: "a luminance in cd/m² such as 400" },
  W: { units: { watts: 1, watt: 1, kw: 1000, w: 1 }, like: "watts, such as 650" },
  V: { units: { volts: 1, volt: 1, v: 1 }, like: "volts, such as 230" },
  A: { units: { amperes: 1, ampere: 1, amps: 1, amp: 1, a: 1 }, like: "amperes, such as 16" },
  stops: { units: { stops: 1, stop: 1 }, like: "stops, such as 0.5 or 1/2 stop" },
  mired: { units: { mireds: 1, mired: 1 }, like: "mireds, such as -35" },
  px: { units: { pixels: 1, px: 1 }, like: "pixels, such as 640" },
  "f/": { units: {}, before: /^f\/?/, like: "an f-number such as 4 or f/5.6" },
  ISO: { units: {}, before: /^iso/, like: "an ISO value such as 800" },
  "": { units: { "%": 0.01 }, like: "a number such as 0.5" },
};
const kShareKeys = ["dimmer", "focus", "reflectance", "transmission", "direct", "level", "gloss", "coat", "roughness", "skin"];
const kTypedOf = { f_number: "f/", iso: "ISO", stops: "stops", loss_stops: "stops", volts: "V", value: "lx" };

// In which unit a key's field is typed.
function typedUnitOf(key) {
  if (kShareKeys.includes(key)) return "share";
  return kTypedOf[key] ?? (key.endsWith("_mired") ? "mired" : key.endsWith("_lx") ? "lx" : wordsOf(key)[1]);
}

const kPlainLetters = [[/[′’]/g, "'"], [/″|”|''/g, '"'], [/−/g, "-"], [/[\u00a0\u202f]/g, " "], [/⁄/g, "/"], [/¼/g, " 1/4"], [/½/g, " 1/2"], [/¾/g, " 3/4"]];

// Takes a number from the left: "1.5", "1/60" or "5 1/2". { value, rest }, or null.
function takeNumber(text) {
  const [all, whole, above, below] = /^(?:(\d+\.?\d*|\.\d+)\s+(?=\d+\s*\/))?(\d+\.?\d*(?:e[+-]?\d+)?|\.\d+)(?:\s*\/\s*(\d+\.?\d*))?\s*/.exec(text) ?? [];
  if (all === undefined || (below !== undefined && Number(below) === 0)) return null;
  return { value: Number(whole ?? 0) + Number(above) / Number(below ?? 1), rest: text.slice(all.length) };
}
// Takes one of the units: { factor, rest }, or null.
function takeUnit(text, units) {
  for (const [name, factor] of Object.entries(units)) {
    const goesOn = /[a-z]$/.test(name) && /^[a-z]/.test(text.slice(name.length));
    if (text.startsWith(name) && !goesOn) return { factor, rest: text.slice(name.length).trimStart() };
  }
  return null;
}

// The sum of lengths such as "5 ft 11 in", or one number. { value }, or why it is none: "number", "unit".
function sumTyped(text, unit) {
  const { units } = kTyped[unit];
  let rest = text, sum = 0, last = 0;
  while (rest !== "") {
    const number = takeNumber(rest);
    if (!number) return { why: last > 0 ? "unit" : "number" };
    const written = takeUnit(number.rest, units);
    const isInches = !written && units.ft && last === units.ft; // 5'11
    if (!written && last > 0 && !isInches) return { why: "unit" };
    const factor = written?.factor ?? (isInches ? units.in : 1);
    if (last > 0 && factor >= last) return { why: "unit" };
    [sum, last, rest] = [sum + number.value * factor, factor, written?.rest ?? number.rest];
    if (!written && rest !== "") return { why: "unit" };
  }
  return last > 0 ? { value: sum } : { why: "number" };
}

// { value } in `unit`, or { wrong }: a line that says what to type.
function numberTyped(text, unit) {
  const field = kTyped[unit] ?? kTyped[""];
  const wrong = (why) => ({ wrong: `"${text.trim()}" ${why}` });
  let plain = kPlainLetters.reduce((now, [from, to]) => now.replace(from, to), text.trim().toLowerCase());
  if (/^[+-]?[1-9]\d{0,2},\d{3}(?!\d)/.test(plain)) return wrong("may be thousands or a fraction; write it without the comma, or with a point");
  plain = plain.replace(/(\d),(\d)/g, "$1.$2").replace(/^([+-]?),(\d)/, "$10.$2");
  if (field.before) plain = plain.replace(field.before, "").trimStart();
  const sign = plain.startsWith("-") ? -1 : 1;
  plain = plain.replace(/^[+-]\s*/, "");
  if (field === kTyped.share) {
    const stops = takeNumber(plain);
    const isStops = stops && takeUnit(stops.rest, kTyped.stops.units)?.rest === "";
    if (isStops) return { value: Number((2 ** (sign * stops.value)).toPrecision(6)) };
  }
  const { value, why } = sumTyped(plain, field === kTyped[unit] ? unit : "");
  if (why === "number") return wrong(`is no number; write ${field.like}`);
  if (why || !Number.isFinite(value)) return wrong(`has a unit that does not fit here; write ${field.like}`);
  return { value: unit === "m" ? tidy(sign * value) : Number((sign * value).toPrecision(6)) };
}

// A box for a number in one of the units of kTyped; `onChange` gets only what is one. The arrow keys
// step by `step`.
function numberInput(value, step, label, unit, onChange) {
  const input = make("input", { type: "text", inputMode: "decimal", class: "number", "aria-label": label });
  input.value = value;
  let last = input.value;
  function take() {
    if (input.value.trim() === "") input.value = last;
    const typed = numberTyped(input.value, unit);
    input.setAttribute("aria-invalid", Boolean(typed.wrong));
    if (typed.wrong) return showTrouble(`${label}: ${typed.wrong}`);
    input.value = last = String(typed.value);
    showTrouble("");
    onChange(typed.value);
  }
  input.addEventListener("change", take);
  input.addEventListener("keydown", (event) => {
    const way = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    const typed = numberTyped(input.value, unit);
    if (!way || typed.wrong) return;
    event.preventDefault();
    input.value = tidy(typed.value + way * (step === "any" ? 1 : step));
    take();
  });
  return input;
}
