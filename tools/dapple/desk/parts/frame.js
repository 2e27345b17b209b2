// The frame, and the moment that was kept to compare with: under a wiper, or side by side.

function makeFrame(onShown) {
  const picture = element("picture");
  const stage = element("stage");
  let shown = null;
  let kept = null; // { image, box, text }
  let isLoading = false;
  let newest = null;

  // One picture at a time: a slow browser skips pictures and never falls behind.
  async function load() {
    if (isLoading || !newest) return;
    isLoading = true;
    const news = newest;
    newest = null;
    try {
      const answer = await fetch(`picture.png?${news.number}`);
      const url = URL.createObjectURL(await answer.blob());
      const old = picture.src;
      picture.src = url;
      await picture.decode().catch(() => {});
      if (old.startsWith("blob:") && old !== kept?.image.src) URL.revokeObjectURL(old);
      shown = news;
      element("stages").style.setProperty("--aspect", 1 / news.shape);
      picture.alt = `The frame, ${news.width} by ${news.height} pixels after ${news.passes} passes`;
      Object.assign(picture.dataset, { version: news.version, width: news.width, light: news.light_width, passes: news.passes, waited: news.waited, mixed: news.mixed });
      tell();
      onShown(news.version);
    } catch {
      // The news say that the program is gone.
    }
    isLoading = false;
    load();
  }

  function tell() {
    const passes = `${shown.passes} pass${shown.passes === 1 ? "" : "es"}`;
    const noise = shown.noise_percent === null ? "" : `, grain of a typical pixel ${shown.noise_percent.toFixed(1)} %`;
    const how = shown.mixed ? ", mixed from the lights of the last frame" : "";
    const light = shown.light_width < shown.width ? `, its light at ${shown.light_width} px` : "";
    element("state").textContent = `${shown.width} × ${shown.height} px${light}, ${passes}${noise}, ${shown.seconds.toFixed(1)} s after the change${how}`;
  }

  function keep() {
    drop();
    const image = make("img", { alt: "The kept moment", src: picture.src });
    kept = { image, box: make("div", { id: "kept" }, image), text: state.set.text };
    element("kept-row").hidden = false;
    document.body.classList.add("keeping");
    element("keep").textContent = "Keep this moment instead";
    place();
    return act({ do: "keep" });
  }
  function drop() {
    if (!kept) return;
    kept.box.remove();
    if (kept.image.src !== picture.src) URL.revokeObjectURL(kept.image.src);
    kept = null;
    element("kept-row").hidden = true;
    document.body.classList.remove("keeping");
    element("keep").textContent = "Keep this moment";
    element("stages").classList.remove("beside");
  }
  function place() {
    if (!kept) return;
    const isBeside = element("beside").getAttribute("aria-pressed") === "true";
    element("stages").classList.toggle("beside", isBeside);
    element("wipe-row").hidden = isBeside;
    if (isBeside) {
      kept.box.style.clipPath = "";
      element("stages").prepend(kept.box);
    } else {
      stage.append(kept.box);
      kept.box.style.clipPath = `inset(0 ${100 - element("wipe").value}% 0 0)`;
    }
  }
  press("keep", keep);
  element("drop").addEventListener("click", drop);
  element("wipe").addEventListener("input", place);
  element("beside").addEventListener("click", () => {
    element("beside").setAttribute("aria-pressed", element("beside").getAttribute("aria-pressed") !== "true");
    place();
  });
  press("go-back", () => act({ do: "text", text: kept.text }));
  return {
    show(news) {
      newest = news;
      load();
    },
  };
}
