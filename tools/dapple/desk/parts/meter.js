// A light meter held anywhere in the frame, and the regions drawn by hand.

function errorWords(error, total) {
  if (error === null) return "error not known yet";
  const stops = error / Math.LN2;
  return stops < 0.05 ? "sure to 0.1 stop" : `error at most ${stops.toFixed(1)} stops`;
}

// "wall_back" → "wall back"
const surfaceWords = (reading) => reading.surface.replaceAll("_", " ");

// The light of each fixture, most first: [name, share].
function sharesOf(film, layers, total) {
  return film.fixtures
    .map((fixture) => [fixture.name, fixture.layers.reduce((sum, g) => sum + layers[g], 0) / total])
    .filter(([, share]) => share > 0.005)
    .sort((a, b) => b[1] - a[1]);
}

function makeMeterMode(desk, mixer) {
  let reading = null, place = null, isAsking = false, wanted = null;
  const box = element("reading");

  async function ask() {
    if (isAsking || !wanted) return;
    isAsking = true;
    place = wanted;
    wanted = null;
    try {
      const answer = await fetch(`meter?x=${place[0]}&y=${place[1]}`);
      reading = answer.ok ? await answer.json() : { why: "there is no frame yet" };
    } catch {
      reading = null;
    }
    isAsking = false;
    tell();
    ask();
  }
  function hold(at) {
    wanted = at;
    ask();
  }

  function lines(film, matrices) {
    const spot = readSpot(film, { rgb: reading.rgb, covariances: null }, matrices);
    const stops = Math.log2(spot.total) - reading.zero;
    const isMixed = mixer.version() !== reading.version;
    const what = reading.matte
      ? `${luxText(spot.total)} lx, ${fStopText(film.f_number * 2 ** (stops / 2))}, ${stopsText(stops)} stops from the exposure`
      : `${spot.total.toPrecision(3)} cd/m², ${stopsText(stops)} stops from mid grey; the surface is not matte, so this is what the lens sees, not the light on it`;
    const error = isMixed ? "" : `; ${errorWords(reading.error)}`;
    const shares = sharesOf(film, spot.layers, spot.total).map(([name, share]) => `${name} ${Math.round(100 * share)} %`);
    return [`${surfaceWords(reading)}: ${what}${error}.`, shares.length > 0 ? `By fixture: ${shares.join(", ")}.` : ""];
  }

  function tell() {
    element("drop-meter").disabled = !reading?.held_at;
    if (!reading) return box.replaceChildren("Click what you want to meter, or drag over it.");
    if (reading.why) return box.replaceChildren(`No reading: ${reading.why}.`);
    const film = mixer.film();
    const matrices = film && film.layers.length === reading.rgb.length ? mixer.matrices() : null;
    if (!matrices) return box.replaceChildren("The meter reads as soon as the light of this frame is there.");
    box.replaceChildren(...lines(film, matrices).filter(Boolean).map((text) => make("p", {}, text)));
  }

  element("drop-meter").addEventListener("click", () => {
    if (!reading?.held_at) return;
    addTable("meter", surfaceWords(reading), { position: reading.held_at, facing: reading.facing });
  });
  return {
    words: "Hold the meter",
    hint: "Click any surface, or drag over it: the light that falls on it, by fixture. Arrow keys move the meter.",
    hasPlace: true,
    show(isOn) {
      element("meter-row").hidden = !isOn;
      document.body.classList.toggle("metering", isOn);
      if (!isOn) return;
      mixer.load(); // the light of a frame at rest
      tell();
    },
    press(at) {
      hold(at);
      return {};
    },
    drag: (drag, at) => hold(at),
    step: (key, cross) => hold(cross),
    // New light: the same place is read again.
    refresh(isNewFilm) {
      if (element("meter-row").hidden || !place) return;
      if (isNewFilm) hold(wanted || place);
      else tell();
    },
  };
}

function makeRegionMode(desk) {
  let corner = null; // of the keyboard
  const box = () => element("marks").querySelector(".drawn");
  function draw(a, b) {
    box()?.remove();
    if (!a) return;
    const [x, y] = [Math.min(a[0], b[0]), Math.min(a[1], b[1])];
    element("marks").append(svg("rect", { class: "drawn", x, y, width: Math.abs(a[0] - b[0]), height: Math.abs(a[1] - b[1]) }));
  }
  function add(a, b) {
    draw(null);
    const size = desk.drawing()?.frame;
    if (!size) return;
    const px = [0, 1].map((i) => [a[i], b[i]].map((share) => Math.round(share * size[i])).sort((p, q) => p - q));
    if (px.some(([low, high], i) => high - low < Math.max(2, 0.01 * size[i]))) return; // a click
    addTable("region", "region", { rect_px: [px[0][0], px[1][0], px[0][1], px[1][1]] });
    element("judge").getAttribute("aria-pressed") === "true" || element("judge").click();
  }
  return {
    words: "Draw a region",
    hint: "Drag over a part of the frame: its level and its texture are then judged. With the keyboard: arrows, Enter for one corner, Enter for the other.",
    hasPlace: true,
    show: (isOn) => {
      if (!isOn) corner = null, draw(null);
    },
    press: (at) => ({ from: at }),
    drag: (drag, at) => draw(drag.from, at),
    release: (drag, at) => add(drag.from, at),
    step(key, cross) {
      if (Array.isArray(key)) return corner && draw(corner, cross);
      if (key !== "Enter" && key !== " ") return;
      if (corner) add(corner, cross);
      corner = corner ? null : [...cross];
    },
  };
}
