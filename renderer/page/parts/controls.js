// The row of each fixture: name, solo, mute, dimmer, and colour where it has one. The dimmer's slider
// counts stops: its left end is off, and each step is a tenth of a stop.

const kDimmerStops = 10;
const kPerStop = 10;

function sliderOfDimmer(dimmer) {
  const place = kDimmerStops * kPerStop + 1 + kPerStop * Math.log2(dimmer);
  return dimmer > 0 ? Math.max(1, Math.min(kDimmerStops * kPerStop + 1, place)) : 0;
}

// At the film's own place it is the film's dimmer to the last digit.
function dimmerOfSlider(place, own) {
  if (Math.abs(place - sliderOfDimmer(own)) < 0.5 && Math.round(place) === Math.round(sliderOfDimmer(own))) return own;
  return place < 1 ? 0 : 2 ** ((Math.round(place) - 1) / kPerStop - kDimmerStops);
}

function dimmerText(dimmer) {
  if (!(dimmer > 0)) return "off";
  const percent = 100 * dimmer;
  const digits = percent < 10 ? 1 : 0;
  const stops = Math.log2(dimmer);
  return `${percent.toFixed(digits)} %  ${stops > -0.05 ? "full" : `−${(-stops).toFixed(1)} st`}`;
}

function makeSlider(label, name, properties, onInput) {
  const output = make("output", {});
  const input = make("input", { type: "range", "aria-label": `${name}: ${label.toLowerCase()}`, ...properties });
  input.addEventListener("input", () => onInput(Number(input.value)));
  return { row: make("label", {}, make("span", {}, label), input, output), input, output };
}

function show(slider, place, text) {
  slider.input.value = place;
  slider.input.setAttribute("aria-valuetext", text.replace(" st", " stops"));
  slider.output.textContent = text;
}

// The lamp's colour temperature at a dimmer.
function warmText(fixture, dimmer) {
  if (!(dimmer > 0)) return "";
  const { low, high, share } = entriesAround(fixture, dimmer);
  return `${Math.round((low.k + share * (high.k - low.k)) / 10) * 10} K`;
}

function makeFixtureRow(fixture, setting, onChange) {
  const kind = make("span", {});
  const isDark = fixture.kind === "dark";
  const toggle = (key, text) => {
    const button = make("button", { type: "button", "aria-pressed": "false", "aria-label": `${text} ${fixture.name}`, disabled: isDark }, text);
    button.addEventListener("click", () => {
      setting[key] = !setting[key];
      onChange();
    });
    return button;
  };
  const solo = toggle("solo", "Solo");
  const mute = toggle("mute", "Mute");
  const title = make("h3", {}, `${fixture.name} `, kind);
  const dimmer = makeSlider("Dimmer", fixture.name, { min: 0, max: kDimmerStops * kPerStop + 1, step: 1, disabled: isDark }, (place) => {
    setting.dimmer = dimmerOfSlider(place, fixture.dimmer);
    onChange();
  });
  const colour = fixture.kind !== "led" ? null : makeSlider("Colour", fixture.name, { min: 0, max: fixture.entries.length - 1, step: 1 }, (place) => {
    setting.entry = place;
    onChange();
  });
  const element = make("div", { class: "fixture", role: "group", "aria-label": fixture.name },
    make("div", { class: "head" }, title, solo, mute), dimmer.row, ...(colour ? [colour.row] : []));
  const update = (isOn) => {
    element.classList.toggle("off", !isOn);
    solo.setAttribute("aria-pressed", setting.solo);
    mute.setAttribute("aria-pressed", setting.mute);
    show(dimmer, sliderOfDimmer(setting.dimmer), dimmerText(setting.dimmer));
    if (colour) show(colour, setting.entry, `${Math.round(fixture.entries[setting.entry].at)} K`);
    kind.textContent = isDark ? "dark in this film" : fixture.kind === "warming" ? warmText(fixture, setting.dimmer) : fixture.window ? "window" : "";
  };
  return { element, update };
}

// The settings as a command line.
function commandText(film, settings) {
  const own = settingsOfFilm(film);
  const words = [`dapple rebalance ${film.name}.exr`];
  const number = (x) => String(Number(x.toPrecision(6)));
  film.fixtures.forEach((fixture, i) => {
    const s = settings[i];
    if (s.dimmer !== own[i].dimmer) words.push(`--set "${fixture.name}.dimmer=${number(s.dimmer)}"`);
    if (s.entry !== own[i].entry) words.push(`--set "${fixture.name}.cct_k=${number(fixture.entries[s.entry].at)}"`);
    if (s.mute) words.push(`--off "${fixture.name}"`);
    if (s.solo) words.push(`--solo "${fixture.name}"`);
  });
  return `${words.join(" ")} -o rebalanced`;
}
