// From linear light to the pixels of the screen: the display curve (develop.h) and the stops map, in
// JavaScript for the canvas and in GLSL for the graphics card. Both must stay the same.

const kKnee = 0.7;

function shoulder(x) {
  if (x <= kKnee) return x;
  const u = (x - kKnee) / (1 - kKnee);
  return kKnee + (1 - kKnee) * (u / (1 + u));
}

function encodeSrgb(x) {
  return x <= 0.0031308 ? 12.92 * x : 1.055 * x ** (1 / 2.4) - 0.055;
}

// kCodeStarts[c]: the least linear value whose code is c. kCodesAt: the code of i / 16384.
const kCodeStarts = new Float64Array(257).map((_, c) => {
  const x = (c - 0.5) / 255;
  return x <= 0.04045 ? x / 12.92 : ((x + 0.055) / 1.055) ** 2.4;
});
kCodeStarts[256] = Infinity;
const kCodesAt = new Uint8Array(16384).map((_, i) => Math.round(255 * encodeSrgb(i / 16384)));

// The sRGB code of a linear value, without its power, which would take most of the time of a frame.
function codeOf(x) {
  if (!(x > 0)) return 0;
  if (x >= 1) return 255;
  const code = kCodesAt[(16384 * x) | 0];
  return x < kCodeStarts[code + 1] ? code : code + 1;
}

// Writes the code values of one colour, 0 to 255, to out[at …].
function showPicture(r, g, b, out, at) {
  const luminance = 0.2126 * r + 0.7152 * g + 0.0722 * b;
  out[at + 3] = 255;
  if (!(luminance > 0)) {
    out[at] = out[at + 1] = out[at + 2] = 0;
    return;
  }
  const low = Math.min(r, g, b);
  if (low < 0) {
    const keep = luminance / (luminance - low);
    r = luminance + keep * (r - luminance);
    g = luminance + keep * (g - luminance);
    b = luminance + keep * (b - luminance);
  }
  const brightness = 0.5 * (luminance + Math.max(r, g, b));
  if (brightness > kKnee) {
    const held = shoulder(brightness) / brightness;
    const scale = (held * held * luminance + (1 - held) * shoulder(luminance)) / luminance;
    r *= scale;
    g *= scale;
    b *= scale;
  }
  const grey = 0.2126 * r + 0.7152 * g + 0.0722 * b;
  const reach = (Math.max(r, g, b) - grey) / Math.max(1 - grey, 1e-6);
  if (reach > kKnee) {
    const keep = shoulder(reach) / reach;
    r = grey + keep * (r - grey);
    g = grey + keep * (g - grey);
    b = grey + keep * (b - grey);
  }
  out[at] = codeOf(r);
  out[at + 1] = codeOf(g);
  out[at + 2] = codeOf(b);
}

// The stops map: the map viridis (S. van der Walt and N. Smith, 2015, public domain), as a
// polynomial of degree six fitted to its table. Even steps look even, also in grey and to most
// people who do not see all colours.
const kMapFirst = -6; // stops about mid grey
const kMapLast = 4;
const kViridis = [
  [0.2777273272234177, 0.005407344544966578, 0.3340998053353061],
  [0.1050930431085774, 1.404613529898575, 1.384590162594685],
  [-0.3308618287255563, 0.214847559468213, 0.09509516302823659],
  [-4.634230498983486, -5.799100973351585, -19.33244095627987],
  [6.228269936347081, 14.17993336680509, 56.69055260068105],
  [4.776384997670288, -13.74514537774601, -65.35303263337234],
  [-5.435455855934631, 4.645852612178535, 26.3124352495832],
];

function viridis(t) {
  const colour = [0, 0, 0];
  for (let k = kViridis.length - 1; k >= 0; k--) {
    for (let c = 0; c < 3; c++) colour[c] = colour[c] * t + kViridis[k][c];
  }
  return colour;
}

function mapPlace(stops) {
  return Math.max(0, Math.min(1, (stops - kMapFirst) / (kMapLast - kMapFirst)));
}

function showStops(stops, out, at) {
  const colour = viridis(mapPlace(stops));
  for (let c = 0; c < 3; c++) out[at + c] = Math.round(255 * Math.max(0, Math.min(1, colour[c])));
  out[at + 3] = 255;
}

// Deep shadows and whites (E115): the picture in grey; dots where it is in deep shadow, stripes where
// it is white or brighter. out[at …] has the code values of the picture.
const kWhiteStops = Math.log2(1 / 0.18); // about mid grey
const kDeepStops = kWhiteStops - 6;

function showLimits(stops, x, y, out, at) {
  const grey = 0.2126 * out[at] + 0.7152 * out[at + 1] + 0.0722 * out[at + 2];
  let colour = [grey, grey, grey];
  if (stops >= kWhiteStops) colour = (x + y) % 8 < 4 ? [230, 60, 40] : [255, 255, 255];
  else if (stops < kDeepStops) colour = x % 6 < 2 && y % 6 < 2 ? [90, 170, 255] : [0, 0, 30];
  for (let c = 0; c < 3; c++) out[at + c] = Math.round(colour[c]);
}

const kPictureGlsl = `
const float kKnee = ${kKnee.toFixed(4)};
float shoulder(float x) {
  if (x <= kKnee) return x;
  float u = (x - kKnee) / (1.0 - kKnee);
  return kKnee + (1.0 - kKnee) * (u / (1.0 + u));
}
float luminanceOf(vec3 c) { return dot(c, vec3(0.2126, 0.7152, 0.0722)); }
float highest(vec3 c) { return max(c.r, max(c.g, c.b)); }
vec3 encodeSrgb(vec3 x) {
  return mix(12.92 * x, 1.055 * pow(max(x, vec3(1e-9)), vec3(1.0 / 2.4)) - 0.055,
             greaterThan(x, vec3(0.0031308)));
}
vec3 showPicture(vec3 c) {
  float luminance = luminanceOf(c);
  if (!(luminance > 0.0)) return vec3(0.0);
  float low = min(c.r, min(c.g, c.b));
  if (low < 0.0) c = luminance + (luminance / (luminance - low)) * (c - luminance);
  float brightness = 0.5 * (luminance + highest(c));
  if (brightness > kKnee) {
    float held = shoulder(brightness) / brightness;
    c *= (held * held * luminance + (1.0 - held) * shoulder(luminance)) / luminance;
  }
  float grey = luminanceOf(c);
  float reach = (highest(c) - grey) / max(1.0 - grey, 1e-6);
  if (reach > kKnee) c = grey + (shoulder(reach) / reach) * (c - grey);
  return encodeSrgb(clamp(c, 0.0, 1.0));
}
vec3 showLimits(vec3 shown, float stops, ivec2 at) {
  if (stops >= ${kWhiteStops.toFixed(6)}) {
    return (at.x + at.y) % 8 < 4 ? vec3(230.0, 60.0, 40.0) / 255.0 : vec3(1.0);
  }
  if (stops < ${kDeepStops.toFixed(6)}) {
    return at.x % 6 < 2 && at.y % 6 < 2 ? vec3(90.0, 170.0, 255.0) / 255.0 : vec3(0.0, 0.0, 30.0) / 255.0;
  }
  return vec3(luminanceOf(shown));
}
vec3 viridis(float t) {
  vec3 c = vec3(0.0);
  ${kViridis
    .slice()
    .reverse()
    .map((k) => `c = c * t + vec3(${k.join(", ")});`)
    .join("\n  ")}
  return clamp(c, 0.0, 1.0);
}
vec3 showStops(float stops) {
  return viridis(clamp((stops - ${kMapFirst.toFixed(1)}) / ${(kMapLast - kMapFirst).toFixed(1)}, 0.0, 1.0));
}
`;
