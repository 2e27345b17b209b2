// Numbers as people type them: "0,5", "155 cm", "5 ft 1 in", "60 %", "1/60". What is not understood is
// told, never guessed.

const kMetres = { mm: 0.001, cm: 0.01, m: 1, ft: 0.3048, "'": 0.3048, "′": 0.3048, in: 0.0254, '"': 0.0254, "″": 0.0254 };
// Other ways to write the unit of a box.
const kSameUnit = { "°": ["deg", "degrees"], K: ["k", "kelvin"], "cd/m²": ["cd/m2"], s: ["sec"], W: ["w"], A: ["a"] };

function plainNumber(text) {
  return /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i.test(text) ? Number(text) : null;
}

// How many of the box's unit one of `written` is; null if it is another kind of unit.
function unitShare(written, unit) {
  if (written === "" || written === unit || (kSameUnit[unit] || []).includes(written.toLowerCase())) return 1;
  if (unit in kMetres && written.toLowerCase() in kMetres) return kMetres[written.toLowerCase()] / kMetres[unit];
  return unit === "" && written === "%" ? 0.01 : null;
}

// { value } in `unit`, or { wrong }: a line that says what to type.
function numberTyped(text, unit) {
  const plain = text.trim().replaceAll("−", "-").replace(/^f\//i, unit === "" ? "" : "f/");
  const wrong = (why) => ({ wrong: `"${text.trim()}" ${why}` });
  if (/^[+-]?[1-9]\d{0,2},\d{3}(?!\d)/.test(plain)) return wrong("may be thousands or a fraction; write it without the comma, or with a point");
  const pointed = plain.replace(/(\d),(\d)/, "$1.$2").replace(/^([+-]?),(\d)/, "$10.$2");
  const fraction = /^(\d+)\/(\d+)\s*s?$/.exec(pointed);
  if (fraction && ["s", ""].includes(unit) && Number(fraction[2])) return { value: Number((fraction[1] / fraction[2]).toPrecision(6)) };
  const parts = /^([^a-z°%'"′″]*?)\s*(ft|['′])\s*([\d.]+)\s*(?:in|["″])$/i.exec(pointed);
  if (parts && unit in kMetres && plainNumber(parts[1]) !== null && plainNumber(parts[3]) !== null) {
    const [feet, inches] = [plainNumber(parts[1]), plainNumber(parts[3])];
    return { value: Number(((feet + Math.sign(feet || 1) * inches / 12) * kMetres.ft / kMetres[unit]).toPrecision(6)) };
  }
  const [, number, written] = /^([+-]?[\d.]*(?:e[+-]?\d+)?)\s*(.*)$/i.exec(pointed);
  const [value, share] = [plainNumber(number), unitShare(written.trim(), unit)];
  const like = unit in kMetres ? `a length such as 0.5 or 50 cm` : unit ? `a number of ${unit} such as 0.5` : "a number such as 0.5";
  if (value === null) return wrong(`is no number; write ${like}`);
  if (share === null) return wrong(`has a unit that does not fit here; write ${like}`);
  return { value: share === 1 ? value : Number((value * share).toPrecision(6)) };
}

// A box for a number; `onChange` gets only what is one. The arrow keys step by `step`.
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
