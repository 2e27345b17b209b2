// What each fixture does to the film's light. A setting is { dimmer, entry, mute, solo }; `entry` is
// the place of an LED's colour in its table, a whole number but on the desk. The new light of a layer is its matrix times the old.

function settingsOfFilm(film) {
  return film.fixtures.map((f) => ({
    dimmer: f.dimmer,
    entry: f.kind === "led" ? entryAt(f, f.k) : 0,
    mute: false,
    solo: false,
  }));
}

// The entry of a table that is nearest to a value.
function entryAt(fixture, value) {
  let best = 0;
  fixture.entries.forEach((e, i) => {
    if (Math.abs(e.at - value) < Math.abs(fixture.entries[best].at - value)) best = i;
  });
  return best;
}

// The two entries of a lamp that warms around a dimmer, and the share of the second.
function entriesAround(fixture, dimmer) {
  const entries = fixture.entries;
  let i = 1;
  while (i < entries.length - 1 && entries[i].at < dimmer) i++;
  const low = Math.log2(entries[i - 1].at);
  const high = Math.log2(entries[i].at);
  const share = high > low ? (Math.log2(dimmer) - low) / (high - low) : 0;
  return { low: entries[i - 1], high: entries[i], share: Math.max(0, Math.min(1, share)) };
}

function isLit(settings, i) {
  if (settings[i].mute || !(settings[i].dimmer > 0)) return false;
  return settings[i].solo || !settings.some((s) => s.solo);
}

function scaled(matrix, factor) {
  return matrix.map((x) => factor * x);
}

const kUnit = [1, 0, 0, 0, 1, 0, 0, 0, 1];
const kDark = scaled(kUnit, 0);

// The matrix at a place of an LED's table; between two entries both are mixed.
function ledMatrix(fixture, entry, layer) {
  const i = Math.floor(entry);
  const low = fixture.entries[i].m[layer];
  if (i === entry) return low;
  const high = fixture.entries[i + 1].m[layer];
  return low.map((x, k) => x + (entry - i) * (high[k] - x));
}

// The matrix of a fixture's layer, row by row.
function layerMatrix(fixture, setting, layer) {
  const ratio = setting.dimmer / fixture.dimmer;
  if (fixture.kind === "led") return scaled(ledMatrix(fixture, setting.entry, layer), ratio);
  if (fixture.kind !== "warming") return scaled(kUnit, ratio);
  const { low, high, share } = entriesAround(fixture, setting.dimmer);
  return low.m[layer].map(
    (x, k) => setting.dimmer * (x + share * (high.m[layer][k] - x)),
  );
}

// The matrices of all layers of the film. A layer of no fixture stays as it is.
function allMatrices(film, settings) {
  const matrices = film.layers.map(() => kUnit);
  film.fixtures.forEach((fixture, i) => {
    fixture.layers.forEach((g, k) => {
      const isDark = fixture.kind === "dark" || !isLit(settings, i);
      matrices[g] = isDark ? kDark : layerMatrix(fixture, settings[i], k);
    });
  });
  return matrices;
}

function luminanceAfter(film, matrix, rgb) {
  let y = 0;
  for (let row = 0; row < 3; row++) {
    const c = matrix[3 * row] * rgb[0] + matrix[3 * row + 1] * rgb[1] + matrix[3 * row + 2] * rgb[2];
    y += film.luminance[row] * c;
  }
  return y;
}

// The light at a meter or on a region: in all and by layer, lx or cd/m2, with the standard error of
// the whole; null if that is not known.
function readSpot(film, spot, matrices) {
  const layers = spot.rgb.map((rgb, g) => luminanceAfter(film, matrices[g], rgb));
  const total = layers.reduce((a, b) => a + b, 0);
  if (!spot.covariances) return { total, layers, error: null };
  const factors = spot.rgb.map((rgb, g) => {
    const was = luminanceAfter(film, kUnit, rgb);
    return was > 0 ? layers[g] / was : 0;
  });
  let variance = 0;
  let at = 0;
  for (let g = 0; g < factors.length; g++) {
    for (let h = 0; h <= g; h++) {
      const twice = g === h ? 1 : 2;
      variance += twice * factors[g] * factors[h] * spot.covariances[at++];
    }
  }
  return { total, layers, error: Math.sqrt(Math.max(0, variance)) };
}
