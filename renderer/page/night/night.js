// Joins the parts: reads the night, makes the cards, and shows them anew whenever something changes.

const night = JSON.parse(document.getElementById("night").textContent);
night.variants.forEach((variant, index) => Object.assign(variant, { index }));
const part = (id) => document.getElementById(id);
const pictures = makePictures([...document.querySelectorAll("script.picture")]);
const view = { chosen: [], shown: [] };
const cards = night.variants.map((variant) => makeCard(night, variant, pictures, choose));
const filters = makeFilters(night, part("filters"), changed);
const comparer = makeComparer(night, pictures, () => view.shown);

function choose(variant) {
  const at = view.chosen.indexOf(variant);
  if (at >= 0) view.chosen.splice(at, 1);
  else view.chosen = [...view.chosen.slice(-1), variant];
  changed();
}

// On the cards: what the variants are ranked by, and what they are ordered by.
function cardMeasures() {
  const ranked = night.measures.filter((m) => m.wish);
  const own = night.measures.find((m) => m.name === part("sort").value);
  const shown = ranked.length ? ranked : night.measures.slice(0, 3);
  return own && !shown.includes(own) ? [...shown, own] : shown;
}

function changed() {
  const reference = night.variants[Number(part("reference").value)];
  const accepted = night.variants.filter((v) => filters.accepts(v));
  view.shown = ordered(accepted, part("sort").value, Number(part("direction").value));
  const measures = cardMeasures();
  for (const v of view.shown) {
    const at = view.chosen.indexOf(v);
    cards[v.index].update(measures, reference, at < 0 ? "" : "AB"[at]);
  }
  placeCards(view.shown.map((v) => cards[v.index].element));
  const count = night.variants.length;
  part("count").textContent = view.shown.length === count ? `${count} ${count === 1 ? "variant" : "variants"}` : `${view.shown.length} of ${count} variants`;
  showTray();
}

// Moves only if the order has changed, so that the focus stays where it is.
function placeCards(elements) {
  const place = part("cards");
  if (elements.length === place.children.length && elements.every((e, i) => place.children[i] === e)) return;
  place.replaceChildren(...elements);
}

function showTray() {
  const [a, b] = view.chosen;
  part("tray").hidden = !a;
  part("open").disabled = !b;
  part("chosen").textContent = a ? `A: ${a.name}. ${b ? `B: ${b.name}.` : "Choose another one to compare."}` : "";
}

function aboutText() {
  const noises = night.variants.map((v) => v.noise_percent).filter(isKnown);
  const texts = [night.exposure ? `All at ${night.exposure}` : "Each at its own exposure"];
  if (noises.length) {
    const [low, high] = [Math.min(...noises), Math.max(...noises)].map((noise) => noise.toFixed(1));
    texts.push(low === high ? `noise ${low} %` : `noise ${low} to ${high} %`);
  }
  const waiting = night.variants.filter((v) => v.passes === 0 && !v.failure).length;
  if (waiting) texts.push(`${waiting} still without a film`);
  return texts.join("; ");
}

function showFailures() {
  const failed = night.variants.filter((v) => v.failure);
  part("failed").append(...failed.map((v) => make("p", {}, `${v.name} failed: ${v.failure}`)));
}

function showRules() {
  const texts = [];
  const ranked = night.measures.filter((m) => m.wish);
  if (ranked.length) texts.push(`Ranked by ${ranked.map((m) => `${m.words} (${wishText(m)})`).join(", ")}. The score adds the distances from the wishes, times their weights.`, night.tie_rule);
  texts.push(night.difference_rule, "Points show the mean over all variants with that value, the bar two standard errors to each side, the upright line the mean of all. Variants of one film count as one as far as their noise may be the same.");
  part("rule-texts").append(...texts.map((text) => make("p", {}, text)));
}

// Without a choice by the reader, the page is as dark as the system's pages.
function makeTheme() {
  const root = document.documentElement;
  const isDark = () => (root.dataset.theme ? root.dataset.theme === "dark" : !matchMedia("(prefers-color-scheme: light)").matches);
  const show = () => (part("theme").textContent = isDark() ? "Light page" : "Dark page");
  part("theme").addEventListener("click", () => {
    root.dataset.theme = isDark() ? "light" : "dark";
    show();
  });
  show();
}

function fillChoices() {
  part("sort").append(...orderOptions(night));
  part("measure").append(...measureOptions(night));
  part("reference").append(...night.variants.map((v) => option(v.name, v.index)));
  const first = night.variants.find((v) => v.name === night.first);
  part("reference").value = first ? first.index : 0;
}

function listen() {
  for (const id of ["sort", "direction", "reference"]) part(id).addEventListener("change", changed);
  part("measure").addEventListener("change", () => showEffect(night, part("measure").value, part("effects")));
  part("all").addEventListener("click", () => {
    filters.reset();
    changed();
  });
  part("open").addEventListener("click", () => comparer.open(...view.chosen));
  part("drop").addEventListener("click", () => {
    view.chosen = [];
    changed();
  });
}

part("about").textContent = aboutText();
fillChoices();
showFailures();
showRules();
makeTheme();
listen();
showEffect(night, part("measure").value, part("effects"));
if (matchMedia("(max-width: 900px)").matches) for (const id of ["order", "moved"]) part(id).open = false;
changed();
document.body.dataset.ready = "night";
