"""Timbers, planks, rods, turned and rounded things."""
import math

from .vectors import add, cross, dot, sub, unit
from .model import GRAIN_SIZE

PLANK_WIDTH = 0.18
PLANK_TONES = ["planks"] * 5 + ["planks_black"] * 3 + ["planks_grey"] * 2 + ["planks_red"] * 2 + [
    "planks_pale"]


def prism(model, material, p0, p1, section, right, up, grain=None):
    """`section` (points across `right`, `up`, counter-clockwise seen from p1) drawn from p0 to p1.

    `grain`, for a board: which side of the section shows wood grain, and where in the image it
    starts. Side 0 is the back.
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
        at = {side: (u, v), (side + 1) % n: (u, v1), n + (side + 1) % n: (u1, v1),
              n + side: (u1, v)}
        faces = [faces[side]] + faces[1:side] + faces[side + 1:]  # without the back, which is never visible
        uvs = [tuple(at[i] for i in faces[0])]
    model.part(material, vertices, faces + ends, uvs=uvs)


def beam(model, material, p0, p1, width, height, up=(0.0, 1.0, 0.0), bevel=0.006):
    """A squared timber with its four long edges chamfered."""
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
    """One plank from p0 to p1 (the middle of its back), `face` towards the room, slightly tilted."""
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
