// Mixes the frame in the page while dimmers and colours slide: the program sends the light of each
// light group once, and the page adds them up at the rate of the screen. Until the lights are there,
// and for all other changes, the program makes the frame.

const kFreshEvery = 1500; // ms between two loads of the same set's lights
const kDrawWithin = 11; // ms of a screen's 16; else coarser pixels while it slides
const kCoarsest = 6;
const kFrameModes = { picture: 0, stops: 1, limits: 2 };

// The tables of a set with changes that the program has not told yet.
function tablesWith(tables, changes) {
  return tables.map((table) => {
    const own = changes.filter((change) => change.address.startsWith(`${table.address}.`));
    if (own.length === 0) return table;
    const keys = { ...table.keys };
    for (const { address, value } of own) {
      const key = address.slice(table.address.length + 1);
      if (Number.isFinite(Number(value))) keys[key] = Number(value);
      else keys[key] = value;
    }
    return { ...table, keys };
  });
}

// The place of a colour in an LED's table; null outside.
function placeOfColour(fixture, kelvin) {
  const entries = fixture.entries;
  for (let i = 0; i < entries.length; i++) {
    if (entries[i].at === kelvin) return i;
    if (i > 0 && entries[i - 1].at < kelvin && kelvin < entries[i].at) {
      return i - 1 + (kelvin - entries[i - 1].at) / (entries[i].at - entries[i - 1].at);
    }
  }
  return null;
}

// Whether one changed key of a fixture is only light; then puts it into `setting`.
function putLight(fixture, setting, key, value) {
  if (!fixture || fixture.kind === "dark" || typeof value !== "number" || value < 0) return false;
  if (key === "dimmer" && value <= 1) {
    setting.dimmer = value;
    return true;
  }
  if (key !== "cct_k" || fixture.kind !== "led") return false;
  setting.entry = placeOfColour(fixture, value);
  return setting.entry !== null;
}

// The settings that lead from the film's set to `tables`; null if more than the light differs.
function settingsFor(film, before, tables) {
  if (before.length !== tables.length) return null;
  const settings = settingsOfFilm(film);
  for (let i = 0; i < tables.length; i++) {
    const [old, now] = [before[i], tables[i]];
    if (old.kind !== now.kind || old.address !== now.address) return null;
    const keys = new Set([...Object.keys(old.keys), ...Object.keys(now.keys)]);
    for (const key of keys) {
      if (JSON.stringify(old.keys[key]) === JSON.stringify(now.keys[key])) continue;
      const f = film.fixtures.findIndex((fixture) => fixture.name === now.name);
      if (now.kind !== "fixture" || !putLight(film.fixtures[f], settings[f], key, now.keys[key])) return null;
    }
  }
  return settings;
}

// The program's answer (desk_film.h): the JSON text, and each layer's halves.
function openParcel(buffer) {
  const size = new DataView(buffer).getUint32(0, true);
  const parcel = JSON.parse(new TextDecoder().decode(new Uint8Array(buffer, 4, size)));
  const values = 3 * parcel.film.width * parcel.film.height;
  parcel.layers = parcel.film.layers.map((_, g) => new Uint16Array(buffer, 4 + size + 2 * values * g, values));
  return parcel;
}

// What a drawer is made for.
const shapeOf = (film) => JSON.stringify([film.width, film.height, film.layers.length, film.luminance, film.log_grey]);

function makeMixer(stage, desk) {
  let parcel = null, drawer = null, canvas = null, newest = null;
  let pending = [], isSliding = false, shownUntil = 0, mode = "picture";
  let isLoading = false, loadedAt = 0, needed = () => false, onLight = () => {};
  const timings = []; // ms from a slider to the finished frame

  function makeCanvas(film) {
    const fresh = document.createElement("canvas");
    fresh.id = "mixed";
    fresh.setAttribute("role", "img");
    fresh.hidden = true;
    canvas?.getContext("webgl2")?.getExtension("WEBGL_lose_context")?.loseContext();
    canvas?.remove();
    stage.append(fresh);
    drawer = makeDrawer(fresh, film, location.hash === "#canvas");
    canvas = stage.querySelector("#mixed");
  }

  async function load() {
    const isKnown = parcel && newest && parcel.number >= newest.number;
    if (isLoading || !newest || newest.moving || isSliding || isKnown || !needed()) return;
    const wait = parcel?.version === newest.version ? loadedAt + kFreshEvery - performance.now() : 0;
    if (wait > 0) return setTimeout(load, wait + 1);
    isLoading = true;
    try {
      const answer = await fetch("light");
      if (answer.ok) take(openParcel(await answer.arrayBuffer()));
    } catch {
      // The news say that the program is gone.
    }
    isLoading = false;
    load();
  }

  function take(fresh) {
    loadedAt = performance.now();
    if (isSliding) return;
    if (!parcel || shapeOf(parcel.film) !== shapeOf(fresh.film)) makeCanvas(fresh.film);
    parcel = fresh;
    parcel.layers.forEach((halves, g) => drawer.layer(g, halves));
    parcel.layers = null;
    document.body.dataset.light = parcel.version;
    draw();
    onLight();
  }

  const matrices = () => {
    const tables = parcel && desk.tables() ? tablesWith(desk.tables(), pending) : null;
    const settings = tables && settingsFor(parcel.film, parcel.tables, tables);
    return settings ? allMatrices(parcel.film, settings) : null;
  };

  // Whether the page could draw the frame as the set is now.
  function draw() {
    const now = matrices();
    if (now) drawer.draw(now, kFrameModes[mode], isSliding ? stride : 1);
    if (canvas) canvas.hidden = !now || (mode === "picture" && !isSliding && shownUntil === 0);
    return now !== null;
  }

  // Coarser at once, finer only if that leaves time to spare.
  let stride = 1;
  function keepPace(took) {
    if (took > kDrawWithin) stride = Math.min(kCoarsest, stride + 1);
    else if (stride > 1 && took * (stride / (stride - 1)) ** 2 < 0.7 * kDrawWithin) --stride;
  }

  let waiting = 0; // when the first slide since the last drawing came
  function drawSoon() {
    if (waiting) return;
    waiting = performance.now();
    requestAnimationFrame(() => {
      const start = performance.now();
      draw();
      drawer.finish();
      timings.push(performance.now() - waiting);
      keepPace(performance.now() - start);
      if (timings.length > 500) timings.shift();
      waiting = 0;
      onLight();
    });
  }

  return {
    timings, matrices, draw,
    film: () => parcel?.film || null,
    kind: () => drawer?.kind || "",
    version: () => parcel?.version || 0,
    // As it is at rest, in full.
    pixels() {
      drawer.draw(matrices(), kFrameModes[mode]);
      return drawer.pixels();
    },
    // Shows changes at once if they are only light. Returns whether it did.
    slide(changes, isMoving) {
      if (!changes.every(({ address }) => /\.(dimmer|cct_k)$/.test(address))) return false;
      pending = [...pending.filter((old) => !changes.some((change) => change.address === old.address)), ...changes];
      if (!matrices()) {
        pending = [];
        isSliding = false;
        return false;
      }
      isSliding = isMoving;
      shownUntil = Infinity;
      drawSoon();
      return true;
    },
    // The program has the changes, as this version of the set.
    sent(version) {
      if (isSliding || shownUntil === 0) return;
      shownUntil = version;
      pending = [];
    },
    onSet() {
      if (!isSliding && shownUntil !== Infinity) pending = [];
      draw();
    },
    onPicture(version) {
      if (isSliding || version < shownUntil || shownUntil === 0) return;
      shownUntil = 0;
      draw();
    },
    onFilm(news) {
      newest = news;
      load();
    },
    setMode(wanted) {
      mode = wanted;
      load();
      draw();
    },
    need(isNeeded) {
      needed = isNeeded;
      load();
    },
    load,
    listen: (listener) => (onLight = listener),
  };
}
