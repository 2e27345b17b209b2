// One card for each variant: picture, place, name, measures, and what can be done with it.

// Pictures are read from the page's text when they are near the window.
function makePictures(texts) {
  const addressOf = (i) => (texts[i].textContent ? `data:image/jpeg;base64,${texts[i].textContent}` : "");
  const watcher = new IntersectionObserver(
    (entries) => {
      for (const { target, isIntersecting } of entries) {
        if (!isIntersecting) continue;
        watcher.unobserve(target);
        target.src = addressOf(Number(target.dataset.variant));
      }
    },
    { rootMargin: "400px" },
  );
  return {
    addressOf,
    watch(image, i) {
      image.dataset.variant = i;
      watcher.observe(image);
    },
  };
}

function fileLink(text, label, address) {
  const link = make("a", { href: address, "aria-label": label }, text);
  link.target = "_blank";
  return link;
}

// The address of a file in the variant's folder.
function inFolder(night, variant, ending) {
  return [variant.folder, night.stem + ending].map(encodeURIComponent).join("/");
}

function makeShot(variant, pictures) {
  const place = placeText(variant);
  const badge = place ? [make("span", { class: "place", "aria-hidden": "true" }, place)] : [];
  if (!variant.size_px) return make("div", { class: "shot none" }, make("p", {}, variant.failure ? "failed" : "no picture yet"), ...badge);
  const [width, height] = variant.size_px;
  const image = make("img", { alt: `The frame of ${variant.name}`, width, height, decoding: "async" });
  pictures.watch(image, variant.index);
  return make("div", { class: "shot" }, image, ...badge);
}

function makeCard(night, variant, pictures, onChoose) {
  const choose = make("button", { type: "button", "aria-pressed": "false", "aria-label": `Compare ${variant.name}`, disabled: !variant.size_px }, "Compare");
  choose.addEventListener("click", () => onChoose(variant));
  const shot = makeShot(variant, pictures);
  const list = make("dl", {});
  const name = make("h3", { id: `name-${variant.index}` }, make("span", { class: "unseen" }, `${placeWords(variant)}: `), variant.name);
  const notes = make("p", { class: "quiet" });
  const acts = make("div", { class: "acts" }, choose);
  if (variant.has_sliders) acts.append(fileLink("Sliders", `Sliders of ${variant.name}`, inFolder(night, variant, ".html")));
  if (variant.passes > 0) acts.append(fileLink("Set file", `Set file of ${variant.name}`, inFolder(night, variant, ".toml")));
  const caption = variant.caption && variant.caption !== variant.name ? [make("p", {}, variant.caption)] : [];
  const element = make("article", { class: "card", "aria-labelledby": name.id }, shot, make("div", { class: "text" }, name, ...caption, list, notes, acts));
  if (variant.size_px) shot.addEventListener("click", () => choose.click());
  return {
    element,
    choose,
    // The measures that the card shows, with the differences to a variant.
    update(measures, reference, letter) {
      list.replaceChildren(...measures.map((measure) => measureRow(variant, measure, reference)));
      notes.textContent = noteText(variant, reference);
      choose.setAttribute("aria-pressed", letter !== "");
      choose.textContent = letter ? `Chosen as ${letter}` : "Compare";
      element.classList.toggle("chosen", letter !== "");
    },
  };
}

function noteText(variant, reference) {
  if (variant.failure) return `Failed: ${variant.failure}`;
  const source = variant.film_of ? `; made from the film of ${variant.film_of}` : "";
  const first = variant === reference ? "Differences are to this variant. " : "";
  return `${first}${noiseText(variant)}${source}`;
}

// A name, the value, and the difference to another variant.
function measureRow(variant, measure, reference) {
  const value = withUnit(measure, withError(variant.measures?.[measure.name], variant.shown_errors?.[measure.name], measure.per_unit));
  const difference = reference && variant !== reference ? differenceOf(reference, variant, measure) : null;
  const parts = difference ? [differenceText(difference, measure), " ", make("span", { class: "quiet" }, differenceWord(difference, measure))] : [];
  return make("div", {}, make("dt", {}, measure.words), make("dd", {}, value), ...(parts.length ? [make("dd", {}, ...parts)] : []));
}
