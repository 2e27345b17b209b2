// Keys of a set file in the words of the trade: label, unit, and how they are typed or slid.

const kKinds = {
  camera: "camera", room: "room", power: "power", fixture: "fixture", glass: "glass", diffuser: "cloth",
  flag: "flag", bounce: "board", stand_in: "figure", window: "window", door: "door", column: "column",
  surface: "surface", region: "region", meter: "meter",
};

const kSlides = {
  dimmer: [0, 1, 0.01], focus: [0, 1, 0.01], turn_deg: [-180, 180, 1], tilt_deg: [-90, 90, 1],
  beam_angle_deg: [2, 120, 0.5], field_angle_deg: [3, 150, 0.5], cct_k: [1800, 10000, 50], duv: [-0.02, 0.02, 0.001],
  output_lm: [10, 5000, 10], source_mm: [1, 200, 1], focal_length_mm: [12, 200, 1], white_k: [2000, 10000, 50],
  focus_m: [0.3, 10, 0.05], transmission: [0, 1, 0.01], spread_deg: [0, 80, 1], direct: [0, 1, 0.01],
  roughness: [0, 1, 0.01], coat: [0, 1, 0.01], gloss: [0, 1, 0.01], luminance_cd_m2: [0, 2000, 1],
  height_m: [0.3, 3, 0.01], rib_depth_mm: [0, 6, 0.1], ribs: [3, 80, 1], pattern_mm: [2, 60, 0.5],
  pattern_depth_mm: [0, 3, 0.05], reflectance: [0, 1, 0.01],
};

const kChoices = {
  "fixture.form": ["spot", "bare", "panel"],
  "fixture.source": ["led", "tungsten", "daylight"],
  "glass.form": ["jar", "bottle", "tumbler", "demijohn", "carafe", "ball", "rod", "pane"],
  "glass.surface": ["plain", "ribbed", "reeded", "hammered", "seeded", "wavy"],
  "glass.tint": ["clear", "green", "amber", "cobalt"],
  "diffuser.cloth": ["full", "half", "quarter", "eighth", "opal", "light-frost", "heavy-frost", "grid",
    "light-grid", "quarter-grid", "silk", "quarter-silk", "muslin", "reflector"],
  "bounce.finish": ["white", "silver", "gold"],
  "stand_in.pose": ["standing", "seated", "arm_raised"],
  "stand_in.skin": ["light", "medium", "dark"],
  "stand_in.hair": ["dark", "fair", "none"],
  "meter.receptor": ["flat", "dome"],
  "window.wall": ["wall_left", "wall_right", "wall_back", "wall_front"],
  "door.wall": ["wall_left", "wall_right", "wall_back", "wall_front"],
};

// What a thing always shows, with the value that holds while it is not written.
const kAlways = { fixture: { dimmer: 1, source: "led", form: "spot" }, glass: { turn_deg: 0, surface: "plain", tint: "clear" }, stand_in: { pose: "standing", skin: "medium" } };

// The numbers of a point, in the file's order: x, y, z.
const kAxisWords = [["left/right", "Metres across the room: more is farther right on the plan, minus is left of the middle"],
  ["height", "Metres above the floor"], ["depth", "Metres along the room: more is farther down on the plan, minus is above the middle"]];

// What comes first among a thing's keys.
const kFirst = ["pose", "reflectance", "wall", "luminance_cd_m2", "dimmer", "cct_k", "beam_angle_deg", "focus", "turn_deg", "tilt_deg", "surface", "tint", "focus_m", "focal_length_mm", "position", "aim", "facing"];

// What can be added to a thing, with a value to begin with.
const kMore = {
  fixture: { dimmer: 1, focus: 1, cct_k: 4300, source_mm: 10, beam_angle_deg: 25, field_angle_deg: 35,
    output_lm: 800, duv: 0, stand: true, gel: { shift_mired: 0, stops: 0 } },
  glass: { tilt_deg: 0, ribs: 24, rib_depth_mm: 1.5, roughness: 0,
    fill: { liquid: "water", level: 0.6 } },
  diffuser: { cloth: "half", size_m: [0.9, 0.9] },
  bounce: { finish: "white", size_m: [0.9, 0.9] },
  flag: { size_m: [0.3, 0.5] },
  stand_in: { turn_deg: 0, height_m: 1.7, pose: "standing", skin: "medium", hair: "dark", gloss: 0 },
  camera: { white_k: 4300, iso: 800, f_number: 4, shutter_s: 0.0166667 },
  meter: { receptor: "dome", receptor_mm: 25 },
  column: { height_m: 1, reflectance: 0.3, carry: true },
  surface: { coat: 1, roughness: 0.2, reflectance: 0.3 },
};

const kUnits = [["_deg", "°"], ["_percent", "%"], ["_mm", "mm"], ["_cd_m2", "cd/m²"], ["_lm", "lm"], ["_px", "px"], ["_cd", "cd"],
  ["_k", "K"], ["_w", "W"], ["_s", "s"], ["_a", "A"], ["_m", "m"]];

// Keys that people call otherwise.
const kWords = { cct_k: ["colour", "K"], white_k: ["white balance", "K"], iso: ["ISO", ""], f_number: ["f-number", ""],
  duv: ["green or magenta, Duv", ""], lux: ["light at a distance", ""], size_m: ["size", "m"], rect_px: ["part of the frame", "px"],
  value: ["reads", "lx"], at_m: ["at", "m"], source_mm: ["lamp opening", "mm"], kit: ["which", ""], aim: ["looks at", "m"], facing: ["faces", "m"], position: ["stands at", "m"], reflectance: ["how light it is", ""],
  luminance_cd_m2: ["brightness", "cd/m²"], output_lm: ["light output", "lm"], roughness: ["frosted", ""], coat: ["wet or varnished", ""] };

// Said when the pointer rests on a key's words.
const kHints = { source_mm: "The smaller, the harder the shadows", cct_k: "Warm is low: tungsten 3200, daylight 5600",
  dimmer: "0 is off, 1 is full, 0.5 is a stop less", beam_angle_deg: "Across the beam, where it has half its light", focus: "0 is the narrowest beam of the lamp, 1 the widest",
  reflectance: "Black paint 0.04, brick 0.2, grey card 0.18, white paint 0.85", luminance_cd_m2: "Of the sky in the window: dusk 50, overcast day 2000",
  position: "Along the room's width, up, and along its length; or the name of a thing", aim: "A point, or the name of a thing: figure face",
  facing: "A point, or the name of a thing: camera", white_k: "The light in which white looks white", centre_m: "Along the wall from its middle, and up" };

// "beam_angle_deg" → ["beam angle", "°"]
function wordsOf(key) {
  if (kWords[key]) return kWords[key];
  for (const [ending, unit] of kUnits) {
    if (key.endsWith(ending)) return [key.slice(0, -ending.length).replaceAll("_", " "), unit];
  }
  const metres = ["position", "aim", "facing"].includes(key) ? "m" : "";
  return [key.replaceAll("_", " "), metres];
}

// "wall_back" → "back wall"
const wallWords = (name) => name.replace(/^wall_(.*)/, "$1 wall");
const kindWord = (kind) => kKinds[kind] || kind.replaceAll("_", " ");
