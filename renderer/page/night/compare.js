// Two variants side by side, under a wiper, or as their difference; all at the same exposure.

// Shows the picture of the page at once, then the one in the variant's folder if it is still there.
function showPicture(image, night, variant, pictures) {
  image.src = pictures.addressOf(variant.index);
  image.alt = `The frame of ${variant.name}`;
  [image.width, image.height] = variant.size_px;
  document.getElementById("stage").style.setProperty("--aspect", variant.size_px[0] / variant.size_px[1]);
  const full = new Image();
  full.addEventListener("load", () => {
    if (image.dataset.full === full.src) image.src = full.src;
  });
  full.src = inFolder(night, variant, ".png");
  image.dataset.full = full.src;
}

function makeComparer(night, pictures, shown) {
  const part = (id) => document.getElementById(id);
  const dialog = part("compare");
  const pair = { a: null, b: null };
  const withPicture = night.variants.filter((v) => v.size_px);
  for (const letter of ["a", "b"]) {
    const pick = part(`pick-${letter}`);
    for (const v of withPicture) pick.append(option(`${placeText(v) ? `${placeText(v)}. ` : ""}${v.name}`, v.index));
    pick.addEventListener("change", () => {
      pair[letter] = night.variants[Number(pick.value)];
      update();
    });
  }

  function update() {
    for (const letter of ["a", "b"]) {
      const variant = pair[letter];
      part(`pick-${letter}`).value = variant.index;
      showPicture(part(`picture-${letter}`), night, variant, pictures);
      part(`name-${letter}`).textContent = `${letter.toUpperCase()}: ${variant.name}`;
    }
    showDifferences(night, pair.a, pair.b, part("differences"));
  }

  function setView(view) {
    part("stage").className = view;
    for (const button of dialog.querySelectorAll(".view")) button.setAttribute("aria-pressed", button.value === view);
    // A slider that disappears would take the keyboard's focus with it.
    if (document.activeElement === part("wipe")) dialog.querySelector(`.view[value=${view}]`).focus();
    part("view-note").hidden = view !== "difference";
    part("wipe-label").hidden = part("line").hidden = view !== "wiper";
  }

  function wipe(percent) {
    const share = Math.max(0, Math.min(100, percent));
    part("wipe").value = share;
    part("wipe").setAttribute("aria-valuetext", `A on the left ${Math.round(share)} %`);
    part("stage").style.setProperty("--wipe", `${share}%`);
  }

  function swap() {
    [pair.a, pair.b] = [pair.b, pair.a];
    update();
  }

  // The next B in the order of the cards.
  function step(by) {
    const list = shown().filter((v) => v.size_px);
    if (!list.length) return;
    const at = list.indexOf(pair.b);
    pair.b = list[(at + by + list.length) % list.length];
    update();
  }

  const keys = { x: swap, n: () => step(1), p: () => step(-1), 1: () => setView("beside"), 2: () => setView("wiper"), 3: () => setView("difference") };
  dialog.addEventListener("keydown", (event) => {
    const act = keys[event.key.toLowerCase()];
    if (!act || event.ctrlKey || event.metaKey || event.altKey || event.target.tagName === "SELECT") return;
    event.preventDefault();
    act();
  });
  part("swap").addEventListener("click", swap);
  part("next").addEventListener("click", () => step(1));
  part("previous").addEventListener("click", () => step(-1));
  part("close").addEventListener("click", () => dialog.close());
  for (const button of dialog.querySelectorAll(".view")) button.addEventListener("click", () => setView(button.value));
  part("wipe").addEventListener("input", () => wipe(Number(part("wipe").value)));
  const drag = (event) => {
    if (part("stage").className !== "wiper" || !(event.buttons & 1)) return;
    const box = part("picture-a").getBoundingClientRect();
    wipe((100 * (event.clientX - box.left)) / box.width);
  };
  for (const type of ["pointerdown", "pointermove"]) part("stage").addEventListener(type, drag);
  part("stage").addEventListener("dragstart", (event) => event.preventDefault());
  wipe(50);
  return {
    open(a, b) {
      [pair.a, pair.b] = [a, b];
      update();
      dialog.showModal();
    },
  };
}
