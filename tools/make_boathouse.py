#!/usr/bin/env python3
"""Writes scenes/boathouse/boathouse.obj, its .mtl and two textures: the boat shed of the demo set.

    tools/make_boathouse.py [FOLDER]

Python's standard library only; every random number has a fixed seed, so the same script writes
the same files. World: right-handed, metres, y up, x along the shed (-6 to 6), z across it (-3.5
to 3.5), floor at y = 0. Curved things carry a smoothing group and no normals. Faces count their
vertices backwards from the last one written (OBJ allows it), which keeps the file small.
"""
import math
import os
import random
import struct
import sys
import zlib

LENGTH, DEPTH, RIDGE, EAVES = 12.0, 7.0, 4.2, 3.0
X0, X1, Z0, Z1 = -LENGTH / 2, LENGTH / 2, -DEPTH / 2, DEPTH / 2
PLANK_WIDTH = 0.18
SLIP_X0, SLIP_X1, SLIP_Z, SLIP_DROP = -2.9, 1.0, 0.2, 0.26  # from z = SLIP_Z down to the wall
DOOR_X0, DOOR_X1, DOOR_TOP = -3.4, 1.2, 2.7

# Linear Rec.709 reflectances. Dark-stained wood 0.05 to 0.12; concrete 0.30 clean and dry, here
# half of that after years of boots, 0.05 wet; brown wood as walnut, dark cloth as denim; skin is the
# mean of measured light-brown skin.
MATERIALS = {
    "planks": (0.085, 0.066, 0.050),
    "planks_black": (0.050, 0.041, 0.034),
    "planks_grey": (0.078, 0.074, 0.068),
    "planks_red": (0.098, 0.066, 0.044),
    "planks_pale": (0.120, 0.098, 0.074),
    "roof_boards": (0.060, 0.049, 0.039),
    "timber": (0.075, 0.057, 0.042),
    "outside": (0.02, 0.02, 0.02),
    "floor": (0.165, 0.158, 0.145),
    "floor_worn": (0.135, 0.130, 0.120),
    "slipway": (0.05, 0.05, 0.05),
    "door_paint": (0.035, 0.070, 0.062),
    "panes": (0.58, 0.66, 0.72),
    "iron": (0.045, 0.042, 0.040),
    "hull": (0.25, 0.12, 0.05),
    "hull_inside": (0.27, 0.15, 0.075),
    "gunwale": (0.17, 0.085, 0.040),
    "trestle": (0.17, 0.13, 0.09),
    "oar shaft": (0.34, 0.23, 0.12),
    "oar_blade": (0.62, 0.58, 0.50),
    "oar_band": (0.30, 0.035, 0.025),
    "old rope": (0.30, 0.23, 0.14),
    "bucket": (0.30, 0.31, 0.32),
    "buoy_red": (0.40, 0.060, 0.035),
    "buoy_white": (0.62, 0.60, 0.55),
    "ladder": (0.22, 0.17, 0.115),
    "skin": (0.42, 0.22, 0.14),
    "hair": (0.022, 0.015, 0.011),
    "wool": (0.040, 0.046, 0.062),
    "boots": (0.030, 0.032, 0.030),
    "cape": (0.24, 0.17, 0.075),
}
GRAIN_SIZE, STAIN_SIZE = (2.8, 1.44), (3.2, 3.2)  # m of wood and of concrete that an image covers
GRAIN = {name: "grain.png" for name in MATERIALS if name.startswith("planks") or name in (
    "roof_boards", "door_paint")}
STAIN = {"floor": "stain.png", "floor_worn": "stain.png"}
PLANK_TONES = ["planks"] * 5 + ["planks_black"] * 3 + ["planks_grey"] * 2 + ["planks_red"] * 2 + [
    "planks_pale"]


# ---- Vectors ------------------------------------------------------------------------------------
def add(a, b, k=1.0):
    return (a[0] + k * b[0], a[1] + k * b[1], a[2] + k * b[2])


def sub(a, b):
    return (a[0] - b[0], a[1] - b[1], a[2] - b[2])


def dot(a, b):
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a, b):
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def unit(a):
    length = math.sqrt(dot(a, a))
    return (a[0] / length, a[1] / length, a[2] / length)


def mix(a, b, t):
    return tuple(p + (q - p) * t for p, q in zip(a, b))


def smoothstep(a, b, x):
    t = min(1.0, max(0.0, (x - a) / (b - a)))
    return t * t * (3 - 2 * t)


def through(points, count):
    """`count` points on a smooth curve (Catmull-Rom) through `points`, tuples of any length."""
    out = []
    for k in range(count):
        at = (len(points) - 1) * k / (count - 1)
        i = min(int(at), len(points) - 2)
        t = at - i
        p1, p2 = points[i], points[i + 1]
        p0 = points[i - 1] if i > 0 else mix(p1, p2, -1)
        p3 = points[i + 2] if i + 2 < len(points) else mix(p1, p2, 2)
        out.append(tuple(0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t * t
                                + (3 * b - a - 3 * c + d) * t ** 3)
                         for a, b, c, d in zip(p0, p1, p2, p3)))
    return out


# ---- The model ----------------------------------------------------------------------------------
class Model:
    """Parts in order; a part is one material's vertices and outward faces (counter-clockwise)."""

    def __init__(self):
        self.parts = []
        self.object = ""

    def part(self, material, vertices, faces, smooth=False, decimals=3, uvs=()):
        """`uvs` belong to the vertices of the first faces, one tuple of pairs per face."""
        assert material in MATERIALS, material
        self.parts.append((self.object, material, vertices, faces, smooth, decimals, uvs))

    def grid(self, material, rows, closed=False, smooth=True, decimals=4, flip=False):
        """A surface over rows of points; `closed` joins the last column to the first. A row whose
        points are all the same is a pole: one vertex, with triangles round it.
        """
        n = len(rows[0])
        vertices, index = [], []
        for row in rows:
            pole = all(p == row[0] for p in row)
            index.append([len(vertices)] * n if pole else [len(vertices) + c for c in range(n)])
            vertices += row[:1] if pole else row
        faces = []
        for low, high in zip(index, index[1:]):
            for c in range(n if closed else n - 1):
                d = (c + 1) % n
                face = tuple(dict.fromkeys((low[c], low[d], high[d], high[c])))
                faces.append(face[::-1] if flip else face)
        self.part(material, vertices, faces, smooth, decimals)

    def write(self, folder, texture_means):
        with open(os.path.join(folder, "boathouse.mtl"), "w") as out:
            out.write("# The boathouse's surfaces; linear Rec.709. Made by tools/make_boathouse.py\n")
            for name, colour in MATERIALS.items():
                image = GRAIN.get(name) or STAIN.get(name)
                # The image darkens by its mean; Kd makes up for it.
                scale = 1 / texture_means[image] if image else 1
                out.write("\nnewmtl %s\nKd %.3g %.3g %.3g\n" % ((name,) + tuple(scale * c for c in colour)))
                if image:
                    out.write("map_Kd %s\n" % image)
        with open(os.path.join(folder, "boathouse.obj"), "w") as out:
            out.write("# A rowing club's boat shed, invented. Metres, y up. "
                      "Made by tools/make_boathouse.py\nmtllib boathouse.mtl\n")
            state = [None, None, None]
            for name, material, vertices, faces, smooth, decimals, uvs in self.parts:
                now = [name, material, "1" if smooth else "off"]
                for key, old, new in zip(("o", "usemtl", "s"), state, now):
                    if old != new:
                        out.write("%s %s\n" % (key, new))
                state = now
                written = 0
                for k, face in enumerate(faces):
                    while written <= max(face):
                        out.write("v %s\n" % " ".join(short(v, decimals) for v in vertices[written]))
                        written += 1
                    if k < len(uvs):
                        for uv in uvs[k]:
                            out.write("vt %s\n" % " ".join(short(x, 3) for x in uv))
                        out.write("f %s\n" % " ".join("%d/%d" % (i - written, j - len(face))
                                                      for j, i in enumerate(face)))
                    else:
                        out.write("f %s\n" % " ".join(str(i - written) for i in face))

    def triangles(self):
        return sum(len(f) - 2 for p in self.parts for f in p[3])


def short(value, decimals):
    text = ("%.*f" % (decimals, value)).rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


# ---- Textures ----------------------------------------------------------------------------------
def tiling_noise(rng, width, height, cells_x, cells_y):
    """Smooth noise, -1 to 1, that repeats; cells_x by cells_y lattice values. Rows of floats."""
    lattice = [[rng.uniform(-1, 1) for _ in range(cells_x)] for _ in range(cells_y)]

    def steps(size, cells):
        for i in range(size):
            at = i * cells / size
            k, t = int(at), at - int(at)
            yield k, (k + 1) % cells, t * t * (3 - 2 * t)

    across = list(steps(width, cells_x))
    rows = []
    for k, k1, t in steps(height, cells_y):
        line = [a + (b - a) * t for a, b in zip(lattice[k], lattice[k1])]
        rows.append([line[i] + (line[j] - line[i]) * s for i, j, s in across])
    return rows


def write_texture(path, layers, contrast):
    """A grey sRGB PNG of summed noise layers, 1 at the brightest. Returns its mean, linear."""
    rows = [[sum(values) for values in zip(*lines)] for lines in zip(*layers)]
    linear = [[max(0.25, min(1.0, 0.80 + contrast * v)) for v in row] for row in rows]
    encoded = [bytes(round(255 * (1.055 * v ** (1 / 2.4) - 0.055)) for v in row) for row in linear]

    def chunk(kind, data):
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    with open(path, "wb") as out:
        out.write(b"\x89PNG\r\n\x1a\n"
                  + chunk(b"IHDR", struct.pack(">IIBBBBB", len(rows[0]), len(rows), 8, 0, 0, 0, 0))
                  + chunk(b"sRGB", b"\0")
                  + chunk(b"IDAT", zlib.compress(b"".join(b"\0" + line for line in encoded), 9))
                  + chunk(b"IEND", b""))
    return sum(map(sum, linear)) / (len(rows) * len(rows[0]))


def write_textures(folder):
    """Wood grain, long in u, and stained concrete."""
    rng = random.Random(7)
    size = (384, 256)
    grain = [[[k * v for v in row] for row in tiling_noise(rng, *size, cx, cy)]
             for cx, cy, k in ((3, 24, 0.5), (5, 64, 0.7), (9, 128, 0.8), (60, 128, 0.25), (12, 8, 0.3))]
    side = 192
    stain = [[[k * v for v in row] for row in tiling_noise(rng, side, side, c, c)]
             for c, k in ((3, 0.8), (6, 0.6), (13, 0.5), (31, 0.35), (96, 0.25))]
    return {"grain.png": write_texture(os.path.join(folder, "grain.png"), grain, 0.30),
            "stain.png": write_texture(os.path.join(folder, "stain.png"), stain, 0.17)}


# ---- Shapes -------------------------------------------------------------------------------------
def prism(model, material, p0, p1, section, right, up, grain=None):
    """`section` (points across `right`, `up`, counter-clockwise seen from p1) drawn from p0 to p1.

    `grain`: a board. Which side of the section shows wood, where in the image it starts; side 0
    is its back.
    """
    vertices = [add(add(p, right, x), up, y) for p in (p0, p1) for x, y in section]
    n = len(section)
    faces = [(i, (i + 1) % n, n + (i + 1) % n, n + i) for i in range(n)]
    if dot(cross(right, up), sub(p1, p0)) < 0:
        faces = [f[::-1] for f in faces]
        ends = [tuple(range(n)), tuple(range(2 * n - 1, n - 1, -1))]
    else:
        ends = [tuple(range(n - 1, -1, -1)), tuple(range(n, 2 * n))]
    uvs = []
    if grain:
        side, u, v = grain
        a, b = section[side], section[(side + 1) % n]
        u1 = u + math.sqrt(dot(sub(p1, p0), sub(p1, p0))) / GRAIN_SIZE[0]
        v1 = v + math.hypot(b[0] - a[0], b[1] - a[1]) / GRAIN_SIZE[1]
        at = {side: (u, v), (side + 1) % n: (u, v1), n + (side + 1) % n: (u1, v1), n + side: (u1, v)}
        faces = [faces[side]] + faces[1:side] + faces[side + 1:]  # no back, nobody sees it
        uvs = [tuple(at[i] for i in faces[0])]
    model.part(material, vertices, faces + ends, uvs=uvs)


def beam(model, material, p0, p1, width, height, up=(0.0, 1.0, 0.0), bevel=0.006):
    """A squared timber with its four long edges taken off."""
    along = unit(sub(p1, p0))
    right = unit(cross(along, up))
    up = cross(right, along)
    w, h, b = width / 2, height / 2, bevel
    section = [(-w + b, -h), (w - b, -h), (w, -h + b), (w, h - b), (w - b, h), (-w + b, h),
               (-w, h - b), (-w, -h + b)]
    prism(model, material, p0, p1, section, right, up)


def box(model, material, low, high):
    middle = [(a + b) / 2 for a, b in zip(low, high)]
    beam(model, material, (low[0], middle[1], middle[2]), (high[0], middle[1], middle[2]),
         high[2] - low[2], high[1] - low[1], bevel=0.003)


def board(model, rng, material, p0, p1, across, face, width=PLANK_WIDTH, thick=0.022):
    """One plank from p0 to p1 (the middle of its back), `face` towards the room, a little askew."""
    tilt = rng.gauss(0, 0.012)
    across, face = (unit(add(across, face, tilt)), unit(add(face, across, -tilt)))
    p0 = add(p0, face, rng.uniform(-0.002, 0.002))
    p1 = add(p1, face, rng.uniform(-0.002, 0.002))
    w, b = width / 2 - 0.0015 - rng.uniform(0, 0.0015), 0.005
    section = [(-w, 0), (w, 0), (w, thick - b), (w - b, thick), (-w + b, thick), (-w, thick - b)]
    prism(model, material, p0, p1, section, across, face, (3, rng.random(), rng.randrange(8) / 8))


def plank_run(model, rng, start, along, length, across, face, cuts):
    """One row of planks end to end over `length`, cut at one or two of `cuts`."""
    inner = [c for c in cuts if 0.4 < c < length - 0.4]
    ends = [0.0] + sorted(rng.sample(inner, min(len(inner), rng.choice((1, 1, 2))))) + [length]
    for a, b in zip(ends, ends[1:]):
        board(model, rng, rng.choice(PLANK_TONES), add(start, along, a + 0.001),
              add(start, along, b - 0.001), across, face)


def tube(model, material, path, radius, sides=8, closed=False, decimals=3):
    """A round rod along `path`; `radius` a number or one per point; round ends closed flat."""
    radii = radius if isinstance(radius, list) else [radius] * len(path)
    rows, n = [], len(path)
    right = None
    for i, p in enumerate(path):
        before, after = ((path[i - 1], path[(i + 1) % n]) if closed else
                         (path[max(i - 1, 0)], path[min(i + 1, n - 1)]))
        along = unit(sub(after, before))
        if right is None:
            right = unit(cross(along, (0.3, 1.0, 0.2) if abs(along[1]) < 0.9 else (1.0, 0.1, 0.0)))
        right = unit(sub(right, tuple(dot(right, along) * a for a in along)))
        up = cross(along, right)
        rows.append([add(add(p, right, radii[i] * math.cos(a)), up, radii[i] * math.sin(a))
                     for a in (2 * math.pi * k / sides for k in range(sides))])
    if closed:
        rows.append(rows[0])
    else:
        rows = [[path[0]] * sides] + rows + [[path[-1]] * sides]
    model.grid(material, rows, closed=True, decimals=decimals)


def lathe(model, material, profile, origin, sides=32, smooth=True):
    """`profile` (radius, height) from the bottom up, turned about the vertical through `origin`."""
    rows = [[(origin[0] + r * math.cos(a), origin[1] + y, origin[2] - r * math.sin(a))
             for a in (2 * math.pi * k / sides for k in range(sides))] for r, y in profile]
    model.grid(material, rows, closed=True, smooth=smooth)


def ellipsoid(model, material, centre, radii, frame=((1, 0, 0), (0, 1, 0), (0, 0, 1)), rows=12,
              columns=22, shape=None):
    """`frame`: right, up, towards; `shape(azimuth, elevation)` scales the radius, azimuth 0 towards."""
    grid = []
    for r in range(rows + 1):
        e = -math.pi / 2 + math.pi * r / rows
        flat = math.cos(e) if 0 < r < rows else 0.0
        row = []
        for c in range(columns):
            a = 2 * math.pi * c / columns if 0 < r < rows else 0.0
            k = shape(a if a < math.pi else a - 2 * math.pi, e) if shape else 1.0
            local = (k * radii[0] * flat * math.sin(a), k * radii[1] * math.sin(e),
                     k * radii[2] * flat * math.cos(a))
            p = centre
            for axis, amount in zip(frame, local):
                p = add(p, axis, amount)
            row.append(p)
        grid.append(row)
    model.grid(material, grid, closed=True)


# ---- The shed -----------------------------------------------------------------------------------
def roof_height(z):
    return RIDGE - (RIDGE - EAVES) * abs(z) / Z1


def gable(model, rng, x, inward, cuts):
    y = 0.0
    while y < RIDGE:
        half = Z1 if y < EAVES else Z1 * (RIDGE - y) / (RIDGE - EAVES)
        if half > 0.15:
            plank_run(model, rng, (x, y + PLANK_WIDTH / 2, -half), (0, 0, 1), 2 * half, (0, 1, 0),
                      (inward, 0, 0), [c - (Z1 - half) for c in cuts])
        y += PLANK_WIDTH
    model.part("outside", [(x - inward * 0.02, -0.4, Z0 - 0.2), (x - inward * 0.02, -0.4, Z1 + 0.2),
                           (x - inward * 0.02, 4.5, Z1 + 0.2), (x - inward * 0.02, 4.5, Z0 - 0.2)],
               [(3, 2, 1, 0) if inward > 0 else (0, 1, 2, 3)])


def side_wall(model, rng, z, inward, openings):
    """Weatherboards along x; `openings` are (x0, x1, top) that stay free of them."""
    y = -2 * PLANK_WIDTH if openings else 0.0
    while y < EAVES:
        spans = [(X0, X1)]
        for x0, x1, top in openings:
            if y + PLANK_WIDTH / 2 < top:
                spans = [(X0, x0), (x1, X1)]
        for a, b in spans:
            plank_run(model, rng, (a, y + PLANK_WIDTH / 2, z), (1, 0, 0), b - a, (0, 1, 0),
                      (0, 0, inward), [k * 1.2 + rng.uniform(-0.3, 0.3) for k in range(1, 10)])
        y += PLANK_WIDTH
    o = z - inward * 0.06
    model.part("outside", [(X0 - 0.2, -0.5, o), (X1 + 0.2, -0.5, o), (X1 + 0.2, 3.2, o),
                           (X0 - 0.2, 3.2, o)], [(0, 1, 2, 3) if inward > 0 else (3, 2, 1, 0)])


def roof(model, rng):
    for side in (-1, 1):
        down = unit((0, EAVES - RIDGE, side * Z1))
        inward = unit((0, -Z1, side * (EAVES - RIDGE)))
        slope = math.hypot(Z1, RIDGE - EAVES) + 0.2
        rows = int(slope / 0.2) + 1
        for k in range(rows):
            start = add((X0 - 0.05, RIDGE + 0.03, 0), down, 0.1 + 0.2 * k)
            cut = rng.uniform(3, 9)
            for a, b in ((0, cut), (cut, LENGTH + 0.1)):
                board(model, rng, rng.choice(("roof_boards", "roof_boards", "planks_black")),
                      add(start, (1, 0, 0), a), add(start, (1, 0, 0), b), down, inward, 0.2)
        top = [add((x, RIDGE + 0.06, -side * 0.05), down, d) for x in (X0 - .2, X1 + .2)
               for d in (0, slope + .2)]
        model.part("outside", top, [(0, 1, 3, 2) if side < 0 else (2, 3, 1, 0)])
        for k in range(11):  # rafters
            x = X0 + 0.06 + k * (LENGTH - 0.12) / 10
            beam(model, "timber", (x, RIDGE - 0.07, side * 0.02), (x, EAVES - 0.09, side * Z1), 0.07, 0.13)
        for z in (1.2, 2.45):  # purlins
            beam(model, "timber", (X0, roof_height(z) - 0.19, side * z),
                 (X1, roof_height(z) - 0.19, side * z), 0.11, 0.13)
        beam(model, "timber", (X0, EAVES - 0.12, side * (Z1 - 0.08)), (X1, EAVES - 0.12, side * (Z1 - 0.08)),
             0.14, 0.16)
    beam(model, "timber", (X0, RIDGE - 0.2, 0), (X1, RIDGE - 0.2, 0), 0.08, 0.2)


def frame_timbers(model):
    for x in (X0 + 0.1, -3.55, -1.15, 1.35, 3.65, X1 - 0.1):
        for z in (Z0 + 0.08, Z1 - 0.08):
            if z < 0 and DOOR_X0 < x < DOOR_X1:
                continue
            beam(model, "timber", (x, 0, z), (x, EAVES, z), 0.14, 0.14, up=(1, 0, 0))
    for x in (-3.55, -1.15, 1.35, 3.65):  # tie beams, king posts and struts
        beam(model, "timber", (x, EAVES - 0.1, Z0), (x, EAVES - 0.1, Z1), 0.12, 0.19)
        beam(model, "timber", (x, EAVES, 0), (x, RIDGE - 0.1, 0), 0.11, 0.11, up=(1, 0, 0))
        for side in (-1, 1):
            beam(model, "timber", (x, EAVES, side * 0.1), (x, roof_height(1.3) - 0.16, side * 1.3), 0.08, 0.09)
            beam(model, "timber", (x, 2.2, side * (Z1 - 0.1)), (x, EAVES - 0.18, side * (Z1 - 0.75)),
                 0.09, 0.09)
    for z in (-2.3, 1.85):  # posts of the far gable
        beam(model, "timber", (X0 + 0.09, 0, z), (X0 + 0.09, roof_height(z) - 0.1, z), 0.13, 0.13, up=(1, 0, 0))
    beam(model, "timber", (X0 + 0.09, EAVES - 0.1, Z0), (X0 + 0.09, EAVES - 0.1, Z1), 0.13, 0.17)


def slip_height(z):
    return -SLIP_DROP * min(1.0, max(0.0, (SLIP_Z - z) / (SLIP_Z - Z0)))


def floor(model, rng):
    """Concrete slabs with open joints; left out where the slipway goes down."""
    xs = [X0, -4.7, -3.8, SLIP_X0, -1.6, -0.3, SLIP_X1, 2.4, 3.6, 4.8, X1]
    zs = [Z0, -2.3, -1.05, SLIP_Z, 1.3, 2.4, Z1]
    for xa, xb in zip(xs, xs[1:]):
        for za, zb in zip(zs, zs[1:]):
            if SLIP_X0 <= xa < SLIP_X1 and zb <= SLIP_Z:
                continue
            y, g, b = rng.uniform(-0.0015, 0.0015), 0.003, 0.004
            low = [(xa + g, y - 0.02, za + g), (xa + g, y - 0.02, zb - g), (xb - g, y - 0.02, zb - g),
                   (xb - g, y - 0.02, za + g)]
            c = ((xa + xb) / 2, 0, (za + zb) / 2)
            top = [(x + math.copysign(b, c[0] - x), y, z + math.copysign(b, c[2] - z)) for x, _, z in low]
            faces = [(4, 5, 6, 7)] + [(i, (i + 1) % 4, 4 + (i + 1) % 4, 4 + i) for i in range(4)]
            uvs = [tuple((x / STAIN_SIZE[0], z / STAIN_SIZE[1]) for x, _, z in top)]
            model.part(rng.choice(("floor", "floor", "floor_worn")), low + top, faces, decimals=4, uvs=uvs)
    model.part("floor_worn", [(X0 - .2, -0.5, Z0 - .2), (X0 - .2, -0.5, Z1 + .2), (X1 + .2, -0.5, Z1 + .2),
                         (X1 + .2, -0.5, Z0 - .2)], [(0, 1, 2, 3)])
    for x, inward in ((SLIP_X0, 1), (SLIP_X1, -1)):  # the kerbs beside the slipway
        kerb = [(x, 0, SLIP_Z), (x, 0, Z0), (x, -0.4, Z0), (x, -0.4, SLIP_Z)]
        model.part("floor_worn", kerb, [(0, 1, 2, 3) if inward < 0 else (3, 2, 1, 0)])
    # A bed of mortar under the slabs closes the joints.
    for low, high in (((X0, SLIP_Z), (X1, Z1)), ((X0, Z0), (SLIP_X0, SLIP_Z)), ((SLIP_X1, Z0), (X1, SLIP_Z))):
        model.part("floor_worn", [(low[0], -0.012, low[1]), (low[0], -0.012, high[1]),
                                  (high[0], -0.012, high[1]), (high[0], -0.012, low[1])], [(0, 1, 2, 3)])


def slipway(model, rng):
    """Wet concrete with hand-tamped grooves across the slope and a surface that is never quite flat."""
    waves = [(rng.uniform(2, 9), rng.uniform(2, 9), rng.uniform(0, 6.3), rng.uniform(0.3, 1)) for _ in range(9)]

    def lift(x, z):
        return 0.0011 * sum(a * math.sin(kx * x + kz * z + p) for kx, kz, p, a in waves)

    z_rows, pitch, groove = [SLIP_Z], 0.19, 0.022
    while z_rows[-1] - pitch > Z0 + 0.05:
        z = z_rows[-1] - pitch
        z_rows += [z + pitch / 2, z + groove / 2, z + groove / 4, z - groove / 4, z - groove / 2]
    z_rows += [Z0 + 0.03, Z0 - 0.06]
    rows = []
    for k, z in enumerate(z_rows):
        inside = k > 0 and k % 5 in (3, 4) and k < len(z_rows) - 2
        rows.append([(x, slip_height(z) + lift(x, z) * smoothstep(0, 0.4, SLIP_Z - z)
                      - (0.007 if inside else 0.0), z)
                     for x in (SLIP_X0 + (SLIP_X1 - SLIP_X0) * c / 20 for c in range(21))])
    model.grid("slipway", rows)


def door(model, rng):
    """Two leaves of upright boards on an iron rail, a row of small panes high in each."""
    z, pane_low, pane_high = Z0 + 0.03, 1.72, 2.24
    middle = (DOOR_X0 + DOOR_X1) / 2
    for x0, x1 in ((DOOR_X0, middle), (middle, DOOR_X1)):
        n = 14
        w = (x1 - x0) / n
        for k in range(n):
            x = x0 + (k + 0.5) * w
            for low, high in ((-0.3, pane_low), (pane_high, DOOR_TOP)):
                board(model, rng, "door_paint", (x, low, z), (x, high, z), (1, 0, 0), (0, 0, 1), w, 0.024)
        for y in (pane_low - 0.03, pane_high + 0.03, 0.32, DOOR_TOP - 0.07):
            beam(model, "door_paint", (x0 + 0.02, y, z + 0.035), (x1 - 0.02, y, z + 0.035), 0.05, 0.12)
        beam(model, "door_paint", (x0 + 0.1, 0.42, z + 0.035), (x1 - 0.1, pane_low - 0.12, z + 0.035), 0.045, 0.11)
        panes = 5
        for k in range(panes + 1):
            x = x0 + 0.04 + (x1 - x0 - 0.08) * k / panes
            beam(model, "door_paint", (x, pane_low, z + 0.02), (x, pane_high, z + 0.02), 0.05, 0.06, up=(0, 0, 1))
        for k in range(panes):
            a = x0 + 0.04 + (x1 - x0 - 0.08) * k / panes
            b = x0 + 0.04 + (x1 - x0 - 0.08) * (k + 1) / panes
            tilt = rng.uniform(-0.004, 0.004)
            model.part("panes", [(a, pane_low, z + tilt), (b, pane_low, z - tilt), (b, pane_high, z - tilt),
                                 (a, pane_high, z + tilt)], [(0, 1, 2, 3)])
            m = (pane_low + pane_high) / 2
            beam(model, "door_paint", (a, m, z + 0.012), (b, m, z + 0.012), 0.03, 0.028)
    beam(model, "iron", (X0 + 0.3, DOOR_TOP + 0.06, Z0 + 0.12), (X1 - 0.3, DOOR_TOP + 0.06, Z0 + 0.12), 0.03, 0.06)
    for x in (DOOR_X0 + 0.4, middle - 0.4, middle + 0.4, DOOR_X1 - 0.4):
        beam(model, "iron", (x, DOOR_TOP - 0.12, Z0 + 0.1), (x, DOOR_TOP + 0.12, Z0 + 0.1), 0.06, 0.02, up=(0, 0, 1))
    for x, material in ((DOOR_X0 - 0.07, "timber"), (DOOR_X1 + 0.07, "timber")):
        beam(model, material, (x, -0.3, Z0 + 0.05), (x, EAVES, Z0 + 0.05), 0.12, 0.14, up=(1, 0, 0))


# ---- The skiff ----------------------------------------------------------------------------------
HULL_LENGTH, HULL_BEAM = 6.2, 0.74


class Skiff:
    """s runs from the stern (0) to the bow (1), t from one gunwale (-1) under the keel to the other."""

    def __init__(self, middle, turn, keel_height):
        self.middle, self.keel_height = middle, keel_height
        self.along = (math.cos(turn), 0, math.sin(turn))
        self.across = cross(self.along, (0, 1, 0))

    def half_beam(self, s):
        return 0.012 + HULL_BEAM / 2 * math.sin(math.pi * s) ** 0.72 * (1.03 - 0.06 * s)

    def sheer(self, s):
        return 0.33 + 0.13 * abs(2 * s - 1) ** 2.2 + 0.04 * s

    def keel(self, s):
        return 0.05 * abs(2 * s - 1) ** 3 + 0.10 * abs(2 * s - 1) ** 14

    def place(self, length, height, width):
        p = add(self.middle, self.along, length)
        p = add(p, self.across, width)
        return (p[0], self.keel_height + height, p[2])

    def point(self, s, t, inset=0.0):
        u = abs(t)
        low, high = self.keel(s) + inset, self.sheer(s)
        fullness = 0.55 + 0.35 * abs(2 * s - 1) ** 2  # round amidships, a V at the ends
        width = max(0.001, self.half_beam(s) - inset) * math.sin(u * math.pi / 2) ** fullness
        height = low + (high - low) * (1 - math.cos(u * math.pi / 2)) ** (1.15 - 0.25 * abs(2 * s - 1))
        rake = 0.16 * (2 * s - 1) ** 7 * (height - 0.15)
        return self.place(HULL_LENGTH * (s - 0.5) + rake, height, math.copysign(width, t))


def skiff(model, boat):
    stations = [0.5 + 0.5 * math.sin(math.pi / 2 * k / 25) for k in range(-25, 26)]
    ts = [k / 11 for k in range(-11, 12)]
    model.grid("hull", [[boat.point(s, t) for t in ts] for s in stations], flip=True)
    inner = [s for s in stations[::2] if 0.02 < s < 0.98]
    ti = [k / 9 for k in range(-9, 10)]
    model.grid("hull_inside", [[boat.point(s, t, 0.014) for t in ti] for s in inner], decimals=3)
    for side in (-1, 1):  # gunwale: a rail inside and outside of the shell's edge
        rows = []
        for s in stations:
            top = boat.point(s, side)
            wide = boat.half_beam(s)
            into = mix(boat.place(0, 0, 0), boat.place(0, 0, -side), min(1.0, wide / 0.05))
            inward = sub(into, boat.place(0, 0, 0))
            rows.append([add(add(top, inward, d), (0, 1, 0), h) for d, h in
                         ((0.026, -0.016), (-0.016, -0.018), (-0.016, 0.010), (0.026, 0.010))])
        model.grid("gunwale", rows, closed=True, smooth=False, flip=side > 0, decimals=3)
    for low, high in ((0.86, 0.995), (0.005, 0.10)):  # decks at the ends
        rows = []
        for s in [low + (high - low) * k / 8 for k in range(9)]:
            a, b = boat.point(s, -1), boat.point(s, 1)
            rows.append([add(mix(a, b, k / 6), (0, 1, 0), 0.012 + 0.03 * math.sin(math.pi * k / 6) * boat.half_beam(s) / 0.3)
                         for k in range(7)])
        model.grid("hull", rows)
    for k in range(17):  # ribs
        s = 0.11 + 0.74 * k / 16
        rows = []
        for t in [j / 6 * 0.96 for j in range(-6, 7)]:
            a, b = boat.point(s - 0.0018, t, 0.022), boat.point(s + 0.0018, t, 0.022)
            rows.append([boat.point(s - 0.0018, t, 0.012), a, b, boat.point(s + 0.0018, t, 0.012)])
        model.grid("gunwale", rows, smooth=False, flip=True, decimals=3)
    for s in (0.24, 0.45, 0.64, 0.80):  # thwarts
        a, b = boat.point(s, -0.83, 0.010), boat.point(s, 0.83, 0.010)
        beam(model, "hull_inside", a, b, 0.2, 0.022)
    for s in (0.40, 0.42, 0.70, 0.72):  # stretchers and floor boards
        beam(model, "trestle", boat.point(s, -0.45, 0.02), boat.point(s, 0.45, 0.02), 0.09, 0.014)
    keel = [boat.point(s, 0, -0.010) for s in stations[1:-1]]
    tube(model, "gunwale", keel, 0.014, 6)
    for s in (0, 1):  # stem and stern post
        post = [mix(boat.point(s, t), boat.point(s, -t), 0.5) for t in (0.0, 0.3, 0.5, 0.7, 0.85, 1.0)]
        tube(model, "gunwale", post + [add(post[-1], (0, 1, 0), 0.02)], 0.017, 8)
    for s in (0.40, 0.60):  # outriggers with their rowlocks
        for side in (-1, 1):
            gate = boat.place(HULL_LENGTH * (s - 0.5), boat.sheer(s) + 0.10, side * 0.74)
            for ds, low in ((-0.055, 0.0), (0.055, 0.0), (0.0, -0.14)):
                at = boat.point(s + ds, side * (1.0 if low == 0 else 0.72))
                tube(model, "iron", [at, mix(at, gate, 0.5), gate], 0.010, 6, decimals=3)
            tube(model, "iron", [add(gate, (0, 1, 0), -0.04), add(gate, (0, 1, 0), 0.09)], 0.011, 6, decimals=3)
            lock = [add(add(gate, boat.along, 0.035 * math.cos(a)), (0, 1, 0), 0.10 - 0.045 * math.sin(a))
                    for a in (math.pi * k / 8 for k in range(9))]
            tube(model, "iron", lock, 0.008, 6, decimals=3)


def trestles(model, boat):
    for length in (-1.75, 1.55):
        s = 0.5 + length / HULL_LENGTH
        top = boat.keel(s) - 0.05
        for lean in (-1, 1):
            for side in (-1, 1):
                head = boat.place(length + lean * 0.03, top - 0.03, side * 0.30)
                foot = boat.place(length + lean * 0.24, -boat.keel_height, side * 0.42)
                beam(model, "trestle", foot, head, 0.05, 0.07, up=boat.along)
            beam(model, "trestle", boat.place(length + lean * 0.175, -boat.keel_height + 0.22, -0.42),
                 boat.place(length + lean * 0.175, -boat.keel_height + 0.22, 0.42), 0.03, 0.07)
        beam(model, "trestle", boat.place(length, top - 0.02, -0.48), boat.place(length, top - 0.02, 0.48), 0.09, 0.09)
        for side in (-1, 1):  # padded cradle
            path = [boat.point(s, side * (0.12 + 0.40 * k / 8), -0.024) for k in range(9)]
            tube(model, "old rope", path, 0.020, 7)
            beam(model, "trestle", boat.place(length, top + 0.02, side * 0.27),
                 add(path[-1], (0, 1, 0), -0.03), 0.05, 0.05, up=boat.along)


# ---- Gear ---------------------------------------------------------------------------------------
def oar(model, foot, lean):
    """Blade up. `lean`: how far the top stands from above the foot, in x and z."""
    length = 2.85
    top = (foot[0] + lean[0], math.sqrt(length ** 2 - lean[0] ** 2 - lean[1] ** 2), foot[2] + lean[1])
    along = unit(sub(top, foot))
    right = unit(cross(along, (1, 0, 0)))
    front = cross(right, along)

    def at(d):
        return add(foot, along, d)

    tube(model, "old rope", [at(0.0), at(0.16)], 0.017, 10)
    tube(model, "oar shaft", [at(0.16), at(0.17), at(1.2), at(2.25), at(2.78)], [0.019, 0.023, 0.023, 0.019, 0.008], 10)
    tube(model, "bucket", [at(0.86), at(1.08)], 0.027, 10)
    for material, low, high, steps in (("oar_blade", 2.22, 2.72, 8), ("oar_band", 2.72, 2.85, 4)):
        rows = []
        for k in range(steps + 1):
            d = low + (high - low) * k / steps
            w = 0.088 * smoothstep(2.18, 2.50, d) * (1 - 0.65 * smoothstep(2.78, 2.86, d) ** 2) + 0.004
            c = add(at(d), front, 0.04 * smoothstep(2.2, 2.85, d) ** 2)
            rows.append([add(add(c, right, w * x), front, 0.006 * f - 0.02 * x * x * w / 0.088)
                         for x, f in ((-1, 0), (-0.5, 1), (0, 1.5), (0.5, 1), (1, 0), (0.5, -1), (0, -1), (-0.5, -1))])
        model.grid(material, rows, closed=True, decimals=3)
    ends = rows[-1]
    model.part("oar_band", ends, [tuple(range(8)), tuple(range(7, -1, -1))])


def oar_rack(model):
    for y in (0.62, 1.86):
        beam(model, "timber", (X0 + 0.07, y, 2.02), (X0 + 0.07, y, 3.34), 0.05, 0.10)
    for k in range(6):
        z = 2.14 + 0.215 * k
        for side in (-0.05, 0.05):
            tube(model, "trestle", [(X0 + 0.08, 1.86, z + side), (X0 + 0.19, 1.88, z + side)], 0.010, 8)
        oar(model, (X0 + 0.27 + 0.02 * (k % 2), 0.0, z + 0.01), (-0.17, 0.0))


def rope_coil(model, centre, turns, radius, rope, rng):
    path = []
    for k in range(turns * 26):
        a = 2 * math.pi * k / 26
        turn = k / 26
        layer = int(turn) % 4
        r = radius - 0.02 * math.sin(turn * 1.9) + rng.uniform(-0.004, 0.004)
        path.append((centre[0] + r * math.cos(a), centre[1] + rope + turn * rope * 0.98 + 0.004 * math.sin(3 * a + layer),
                     centre[2] + r * math.sin(a)))
    for k in range(1, 15):  # the end trails away over the floor
        a = 2 * math.pi * k / 30
        r = radius + 0.03 * k
        path.insert(0, (centre[0] + r * math.cos(-a), centre[1] + rope, centre[2] + r * math.sin(-a)))
    tube(model, "old rope", path, rope, 6)


def hanging_rope(model, peg, drop, rng):
    """Loops of rope over a peg that stands out along +x."""
    for k in range(6):
        width, long = 0.10 + 0.012 * k + rng.uniform(-0.01, 0.01), drop * (1 + rng.uniform(-0.10, 0.10))
        path = []
        for j in range(24):
            a = 2 * math.pi * j / 24
            y = long / 2 * math.cos(a)
            path.append((peg[0] + 0.03 + 0.022 * k, peg[1] - long / 2 + y + 0.01,
                         peg[2] + width * math.sin(a) * (0.75 - 0.25 * math.cos(a))))
        tube(model, "old rope", path, 0.011, 5, closed=True)
    tube(model, "iron", [(peg[0] - 0.03, peg[1], peg[2]), (peg[0] + 0.2, peg[1] + 0.02, peg[2])], 0.012, 8)


def buoy(model, material, hook, drop, radius):
    """A float on a short line from a hook."""
    ellipsoid(model, material, add(hook, (0, -drop - radius * 1.25, 0)), (radius, radius * 1.2, radius))
    c = add(hook, (0, -drop - radius * 1.25, 0))
    lathe(model, "buoy_white", [(radius * 1.004 * math.cos(e), radius * 1.204 * math.sin(e))
                                for e in (-0.22, -0.1, 0, 0.1, 0.22)], c, 22)
    lathe(model, "iron", [(0.024, radius * 1.12), (0.028, radius * 1.2), (0.020, radius * 1.32), (0.0, radius * 1.34)], c, 14)
    tube(model, "old rope", [add(c, (0, radius * 1.3, 0)), hook], 0.008, 6)
    tube(model, "iron", [add(hook, (-0.06, 0, 0)), add(hook, (0.01, 0.0, 0)), add(hook, (0.03, 0.03, 0))], 0.007, 6)


def bucket(model, centre):
    lathe(model, "bucket", [(0.0, 0.004), (0.108, 0.004), (0.112, 0.0), (0.116, 0.02), (0.126, 0.10), (0.129, 0.105),
                            (0.130, 0.12), (0.148, 0.27), (0.154, 0.275), (0.155, 0.283), (0.150, 0.287), (0.145, 0.28),
                            (0.112, 0.03), (0.0, 0.02)], centre, 36)
    handle = [(centre[0] + 0.153 * math.cos(a), centre[1] + 0.262 - 0.05 * math.sin(a), centre[2] + 0.155 * math.sin(a) * 0.98)
              for a in (math.pi * k / 16 for k in range(17))]
    tube(model, "iron", handle, 0.005, 6)


def ladder(model):
    for z in (-2.66, -3.08):
        beam(model, "ladder", (-5.28, 0, z), (-5.90, 2.86, z), 0.035, 0.075, up=(1, 0, 0))
    for k in range(9):
        t = 0.09 + 0.102 * k
        x, y = -5.28 - 0.62 * t, 2.86 * t
        tube(model, "ladder", [(x, y, -2.66), (x, y, -3.08)], 0.017, 9)


# ---- The lay figure -----------------------------------------------------------------------------
class Pose:
    """Local frame: x to the figure's left, y up, z the way it faces; feet at y = 0, 1.72 m tall."""

    def __init__(self, position, bearing):
        self.position = position
        self.front = (math.cos(bearing), 0, math.sin(bearing))
        self.left = cross((0, 1, 0), self.front)

    def world(self, p):
        return add(add(add(self.position, self.left, p[0]), (0, 1, 0), p[1]), self.front, p[2])


def limb(joints, rows, sides, roundness=1.0):
    """Sections of a limb through (x, y, z, radius) joints, with rounded ends. Rows of local points."""
    path = through(joints, rows)
    out = []
    right = None
    for i, p in enumerate(path):
        along = unit(sub(path[min(i + 1, rows - 1)], path[max(i - 1, 0)]))
        right = right or unit(cross(along, (0.1, 0.2, 1.0)))
        right = unit(sub(right, tuple(dot(right, along) * a for a in along)))
        up = cross(along, right)
        out.append([add(add(p, right, p[3] * math.cos(a)), up, p[3] * roundness * math.sin(a))
                    for a in (2 * math.pi * k / sides for k in range(sides))])
        if i in (0, rows - 1):
            ends = []
            for k in range(4):
                e = math.pi / 2 * k / 3
                tip = add(p[:3], along, (-1 if i == 0 else 1) * 0.8 * p[3] * math.cos(e))
                ends.append([add(tip, sub(q, p[:3]), math.sin(e)) for q in out[-1]])
            out = ends if i == 0 else out[:-1] + ends[::-1]
    return out


TORSO = [  # height, half width, half depth, forward
    (0.79, 0.060, 0.055, 0.0), (0.83, 0.135, 0.095, -0.006), (0.90, 0.168, 0.112, -0.008), (0.97, 0.160, 0.104, -0.004),
    (1.06, 0.136, 0.092, 0.004), (1.14, 0.140, 0.096, 0.010), (1.24, 0.163, 0.110, 0.012), (1.32, 0.176, 0.108, 0.004),
    (1.38, 0.168, 0.092, -0.006), (1.42, 0.125, 0.074, -0.010), (1.45, 0.082, 0.064, -0.012), (1.475, 0.062, 0.058, -0.010)]


def torso():
    rows = []
    for y, a, b, z in through(TORSO, 20):
        rows.append([(a * math.cos(t), y, z + b * math.sin(t)) for t in (-2 * math.pi * k / 22 for k in range(22))])
    return rows


def bump(azimuth, elevation, a, e, wide, high, height):
    return height * math.exp(-((azimuth - a) / wide) ** 2 - ((elevation - e) / high) ** 2)


def face_shape(azimuth, elevation):
    """Egg-shaped skull with the hint of brow, nose, cheeks, lips and chin; a sculptor's simplification."""
    a, e = abs(azimuth), elevation
    k = 1.0
    k -= 0.15 * smoothstep(-0.1, -1.1, e) * (0.6 + 0.4 * math.cos(azimuth) ** 2) * (1 if a < 1.9 else 0.6)
    k += bump(a, e, 0, -0.12, 0.14, 0.19, 0.160) + bump(a, e, 0, 0.10, 0.10, 0.20, 0.05)  # nose
    k += bump(a, e, 0.30, 0.26, 0.34, 0.11, 0.036)  # brow
    k -= bump(a, e, 0.36, 0.10, 0.17, 0.10, 0.085)  # eyes
    k += bump(a, e, 0.36, 0.09, 0.11, 0.055, 0.034)  # lids
    k += bump(a, e, 0.68, -0.14, 0.26, 0.20, 0.030)  # cheeks
    k += bump(a, e, 0, -0.46, 0.24, 0.055, 0.050) + bump(a, e, 0, -0.58, 0.20, 0.05, 0.045)  # lips
    k -= bump(a, e, 0, -0.52, 0.22, 0.022, 0.030)
    k += bump(a, e, 0, -0.86, 0.34, 0.16, 0.105)  # chin
    k += bump(a, e, 1.10, -0.62, 0.42, 0.26, 0.040)  # jaw
    k -= 0.05 * smoothstep(1.0, 1.5, a) * smoothstep(2.2, 1.6, a) * smoothstep(0.5, -0.1, e)
    return k


def hair_shape(azimuth, elevation):
    """The skull again, thicker where hair grows and sunk into the head where it does not."""
    a = abs(azimuth)
    line = 0.66 - 0.75 * smoothstep(0.70, 1.25, a) - 0.62 * smoothstep(1.45, 2.3, a)
    grown = smoothstep(line - 0.05, line + 0.10, elevation)
    lock = 0.006 * math.sin(23 * azimuth + 4 * elevation) + 0.004 * math.sin(41 * azimuth)
    return (0.93 - 0.16 * smoothstep(-0.15, -0.8, elevation)) * (1 - grown) + (1.065 + lock) * grown


def head(model, pose, yaw, nod):
    c = pose.world((0.0, 1.605, 0.012))
    front = add(tuple(math.cos(yaw) * f for f in pose.front), pose.left, math.sin(yaw))
    left = cross((0, 1, 0), front)
    up = unit(add((0, 1, 0), front, nod))
    front = cross(left, up)
    frame = (left, up, front)
    radii = (0.074, 0.112, 0.094)
    ellipsoid(model, "skin", c, radii, frame, 36, 52, face_shape)
    ellipsoid(model, "hair", add(c, front, -0.003), radii, frame, 20, 36, hair_shape)
    knot = add(add(c, front, -0.108), up, 0.028)
    ellipsoid(model, "hair", knot, (0.043, 0.040, 0.036), frame, 12, 20,
              lambda a, e: 1 + 0.04 * math.sin(5 * a + 6 * e))
    for side in (-1, 1):  # ears
        at = add(add(add(c, left, side * 0.071), up, -0.008), front, -0.012)
        tilted = (unit(add(left, front, -side * 0.35)), up, unit(add(front, left, side * 0.35)))
        ellipsoid(model, "skin", at, (0.011, 0.031, 0.019), tilted, 10, 14)


def hand(model, pose, wrist, towards, palm, spread, fingers=True):
    """A palm and five jointed fingers, or the palm alone. `towards`, `palm`: unit local directions."""
    side = cross(palm, towards)
    rows = []
    for d, w, t in through([(-0.01, 0.024, 0.020), (0.02, 0.030, 0.017), (0.055, 0.041, 0.014), (0.092, 0.040, 0.011)], 7):
        c = add(wrist, towards, d)
        rows.append([add(add(c, side, w * math.cos(a)), palm, t * math.sin(a)) for a in
                     (2 * math.pi * k / 16 for k in range(16))])
    rows = [[add(wrist, towards, -0.012)] * 16] + rows + [[add(wrist, towards, 0.102)] * 16]
    to_world(model, "skin", pose, rows, flip=False)
    if not fingers:
        return
    for k, length in enumerate((0.068, 0.078, 0.073, 0.056)):
        base = add(add(wrist, towards, 0.090 - 0.003 * abs(k - 1)), side, 0.030 - 0.020 * k)
        aim = unit(add(towards, side, spread * (1.3 - k)))
        joints = [base + (0.0095,)]
        for j in (1, 2, 3):
            curl = 0.030 * j * j / 9 + 0.006 * k * j / 3
            joints.append(add(add(base, aim, length * j / 3), palm, curl) + (0.0095 - 0.0011 * j,))
        to_world(model, "skin", pose, limb(joints, 6, 8), flip=False)
    base = add(add(wrist, towards, 0.026), side, 0.030)
    joints = [base + (0.013,), add(add(base, towards, 0.030), side, 0.022) + (0.011,),
              add(add(add(base, towards, 0.062), side, 0.030), palm, 0.012) + (0.0085,)]
    to_world(model, "skin", pose, limb(joints, 6, 8), flip=False)


def to_world(model, material, pose, rows, flip):
    model.grid(material, [[pose.world(p) for p in row] for row in rows], closed=True, flip=flip)


def figure(model, pose):
    """Parts of the body; returns local points that the cape has to clear."""
    body = torso()
    to_world(model, "wool", pose, body, flip=False)
    solid = [p for row in body for p in row]
    neck = limb([(0, 1.43, -0.012, 0.058), (0, 1.48, -0.006, 0.050), (0, 1.55, 0.002, 0.050)], 6, 20)
    to_world(model, "skin", pose, neck, flip=False)
    solid += [p for row in neck for p in row]
    # A rolled collar of the pullover.
    collar = limb([(0, 1.447, -0.012, 0.072), (0, 1.462, -0.010, 0.068), (0, 1.478, -0.008, 0.064)], 6, 24)
    to_world(model, "wool", pose, collar, flip=False)
    solid += [p for row in collar for p in row]
    head(model, pose, math.radians(22), 0.04)

    arms = {
        "left": [(0.176, 1.385, -0.012), (0.232, 1.115, -0.035), (0.236, 0.885, 0.045)],
        "right": [(-0.176, 1.385, -0.012), (-0.262, 1.125, 0.045), (-0.225, 1.205, 0.285)],
    }
    for name, (shoulder, elbow, wrist) in arms.items():
        upper = limb([shoulder + (0.056,), mix(shoulder, elbow, 0.45) + (0.050,), elbow + (0.043,)], 8, 16)
        to_world(model, "wool", pose, upper, flip=False)
        sleeve = limb([elbow + (0.043,), mix(elbow, wrist, 0.3) + (0.042,), mix(elbow, wrist, 0.62) + (0.037,)], 7, 18)
        to_world(model, "wool", pose, sleeve, flip=False)
        cuff = mix(elbow, wrist, 0.64)
        lower = limb([mix(elbow, wrist, 0.5) + (0.033,), cuff + (0.030,), wrist + (0.024,)], 6, 18)
        to_world(model, "skin", pose, lower, flip=False)
        solid += [p for row in upper for p in row]
        if name == "left":
            solid += [p for row in sleeve + lower for p in row]
        if name == "left":
            hand(model, pose, wrist, unit((0.02, -1, 0.22)), unit((-1, 0, 0.15)), 0.05, fingers=False)
        else:
            towards = unit(sub(wrist, elbow))
            towards = unit(add(towards, (0.10, -0.05, 0)))
            palm = unit(cross(towards, (-1.0, 0.15, -0.2)))
            palm = palm if palm[1] > 0 else tuple(-x for x in palm)
            hand(model, pose, wrist, towards, unit(sub(palm, tuple(dot(palm, towards) * t for t in towards))), 0.16)

    for side, knee_forward in ((1, 0.030), (-1, 0.012)):
        hip, knee = (side * 0.088, 0.875, -0.005), (side * 0.098, 0.480, knee_forward)
        ankle = (side * 0.108, 0.075, -0.020 + knee_forward * 0.5)
        leg = limb([hip + (0.090,), mix(hip, knee, 0.5) + (0.078,), knee + (0.061,), mix(knee, ankle, 0.3) + (0.060,),
                    mix(knee, ankle, 0.6) + (0.058,)], 14, 20)
        to_world(model, "wool", pose, leg, flip=False)
        solid += [p for row in leg for p in row]
        boot = limb([mix(knee, ankle, 0.16) + (0.069,), mix(knee, ankle, 0.35) + (0.067,), mix(knee, ankle, 0.7) + (0.056,),
                     ankle + (0.050,), (ankle[0], 0.045, ankle[2] - 0.004, 0.046)], 12, 20)
        to_world(model, "boots", pose, boot, flip=False)
        foot = []
        turn = side * 0.16
        for d, w, h in through([(-0.085, 0.012, 0.030), (-0.070, 0.038, 0.060), (-0.02, 0.043, 0.075), (0.05, 0.043, 0.062),
                                (0.12, 0.051, 0.048), (0.165, 0.043, 0.036), (0.190, 0.012, 0.020)], 15):
            x, z = ankle[0] + math.sin(turn) * d, ankle[2] + math.cos(turn) * d
            foot.append([(x + math.cos(turn) * w * math.cos(a), max(0.0, h / 2 + h * 0.62 * math.sin(a)),
                          z - math.sin(turn) * w * math.cos(a)) for a in (2 * math.pi * k / 18 for k in range(18))])
        to_world(model, "boots", pose, foot, flip=False)
    return solid


def cape(model, pose, solid, rng):
    """An open sheet that hangs from the shoulders: the body's convex outline at each height, never
    drawn in below a wider one, with folds that open towards the hem. Returns its least distance
    from the body in metres.
    """
    columns, levels = 80, 36
    open_from, open_to = math.radians(-58), math.radians(14)  # from the front, positive to the left
    step = math.radians(4)
    directions = [k * step for k in range(90)]
    hem, top = 0.52, 1.478
    heights = [top - (top - hem) * ((0.30 * k / (levels - 1)) + 0.70 * (k / (levels - 1)) ** 1.9) for k in range(levels)]
    phases = [rng.uniform(0, 6.28) for _ in range(4)]
    support = [0.0] * len(directions)
    above = 9.0
    rows = []
    for y in heights:
        for p in solid:
            if y - 0.035 <= p[1] < above:
                for i, d in enumerate(directions):
                    reach = p[0] * math.sin(d) + p[2] * math.cos(d)
                    if reach > support[i]:
                        support[i] = reach
        above = y
        fall = max(0.0, 1.36 - y)
        row = []
        for c in range(columns):
            a = open_to + (2 * math.pi - (open_to - open_from)) * c / (columns - 1)
            r = min(h / math.cos(a - d) for h, d in zip(support, directions) if math.cos(a - d) > 0.2)
            edge = smoothstep(0, 0.25, min(c, columns - 1 - c) / columns)
            wave = 0.55 * math.cos(11 * a + phases[0] + 0.9 * math.sin(2 * a + phases[1])) + 0.45 * math.cos(
                6 * a + phases[2] + 0.7 * y)
            fold = (0.5 + 0.5 * wave) ** 1.6 * 0.115 * (fall / 0.84) ** 0.8
            drag = 0.03 * fall * math.cos(a - math.radians(150))  # trails a little behind
            r += 0.031 + fold + drag + 0.10 * fall ** 1.3 + 0.012 * (1 - edge) * fall
            lift = 0.024 * smoothstep(1.20, 1.38, y) + 0.010 * math.sin(5 * a + phases[3]) * smoothstep(0.75, 0.52, y)
            row.append((r * math.sin(a), y + lift, r * math.cos(a)))
        rows.append(row)
    # Soften the corners of the outline, in both directions.
    for _ in range(3):
        rows = [[tuple(0.5 * q + 0.125 * (a + b + c + d) for q, a, b, c, d in zip(
            row[c], row[max(c - 1, 0)], row[min(c + 1, columns - 1)], rows[max(r - 1, 0)][c], rows[min(r + 1, levels - 1)][c]))
                 for c in range(columns)] for r, row in enumerate(rows)]
    model.grid("cape", [[pose.world(p) for p in row] for row in rows], flip=True)
    return math.sqrt(min(dot(sub(p, q), sub(p, q)) for row in rows for q in row for p in solid
                         if abs(p[1] - q[1]) < 0.05))


def build():
    model, rng = Model(), random.Random(20)
    shed = [("far gable", lambda: gable(model, rng, X0, 1, [0.55, 1.25, 2.3, 3.1, 4.6, 5.25, 6.2])), ("near gable", lambda: gable(model, rng, X1, -1, [])),
            ("left wall", lambda: side_wall(model, rng, Z1, -1, [])),
            ("right wall", lambda: side_wall(model, rng, Z0, 1, [(DOOR_X0, DOOR_X1, DOOR_TOP)])),
            ("roof", lambda: roof(model, rng)), ("timbers", lambda: frame_timbers(model)),
            ("floor", lambda: floor(model, rng)), ("slipway", lambda: slipway(model, rng)),
            ("door", lambda: door(model, rng))]
    boat = Skiff((-0.95, 0.0, 1.10), math.radians(9.3), 0.60)
    gear = [("skiff", lambda: skiff(model, boat)), ("trestles", lambda: trestles(model, boat)),
            ("oar rack", lambda: oar_rack(model)), ("ladder", lambda: ladder(model)),
            ("bucket", lambda: bucket(model, (-0.35, 0.0, 0.50))),
            ("rope coil", lambda: rope_coil(model, (0.35, 0.0, 0.62), 5, 0.17, 0.014, rng)),
            ("hanging rope", lambda: hanging_rope(model, (X0 + 0.13, 1.75, -2.3), 0.62, rng)),
            ("float 1", lambda: buoy(model, "buoy_red", (X0 + 0.22, 2.05, 1.85), 0.16, 0.14)),
            ("float 2", lambda: buoy(model, "buoy_red", (-3.35, 1.95, Z1 - 0.22), 0.10, 0.13))]
    for name, make in shed + gear:
        model.object = name
        make()
    x, z = -1.75, -0.95
    pose = Pose((x, slip_height(z) - 0.002, z), math.radians(60))
    model.object = "figure"
    solid = figure(model, pose)
    model.object = "cape"
    clearance = cape(model, pose, solid, rng)
    return model, clearance


def main():
    here = os.path.dirname(os.path.abspath(__file__))
    folder = sys.argv[1] if len(sys.argv) > 1 else os.path.join(here, "..", "scenes", "boathouse")
    model, clearance = build()
    model.write(folder, write_textures(folder))
    print("%d triangles; the cape stays %.0f mm off the body" % (model.triangles(), clearance * 1000))


if __name__ == "__main__":
    main()
