// The frame, and the frame that was kept to compare with.

function makeFrame() {
  const picture = element("picture");
  const stage = document.createElement("div");
  stage.className = "stage";
  picture.before(stage);
  stage.append(picture);
  let shown = null;
  let kept = null;
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
      if (old.startsWith("blob:") && old !== kept?.src) URL.revokeObjectURL(old);
      shown = news;
      picture.alt = `The frame, ${news.width} by ${news.height} pixels after ${news.passes} passes`;
      picture.dataset.version = news.version;
      picture.dataset.width = news.width;
      picture.dataset.passes = news.passes;
      picture.dataset.mixed = news.mixed;
      tell();
    } catch {
      // The news say that the program is gone.
    }
    isLoading = false;
    load();
  }

  function tell() {
    if (!shown) return;
    const passes = `${shown.passes} pass${shown.passes === 1 ? "" : "es"}`;
    const noise = shown.noise_percent === null ? "" : `, grain of a typical pixel ${shown.noise_percent.toFixed(1)} %`;
    const how = shown.mixed ? ", mixed from the lights of the last frame" : "";
    element("state").textContent = `${shown.width} × ${shown.height} px, ${passes}${noise}, ${shown.seconds.toFixed(1)} s after the change${how}`;
  }

  function keep() {
    drop();
    kept = new Image();
    kept.id = "kept";
    kept.alt = "The kept frame";
    kept.src = picture.src;
    stage.append(kept);
    element("wipe-row").hidden = element("drop").hidden = false;
    wipe();
  }
  function drop() {
    if (!kept) return;
    kept.remove();
    if (kept.src !== picture.src) URL.revokeObjectURL(kept.src);
    kept = null;
    element("wipe-row").hidden = element("drop").hidden = true;
  }
  function wipe() {
    if (kept) kept.style.clipPath = `inset(0 ${100 - element("wipe").value}% 0 0)`;
  }
  element("keep").addEventListener("click", keep);
  element("drop").addEventListener("click", drop);
  element("wipe").addEventListener("input", wipe);
  return {
    show(news) {
      newest = news;
      load();
    },
  };
}
