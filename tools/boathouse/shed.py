"""The shed: walls, roof, frame, floor, slipway and door."""
import math

from .vectors import add, smoothstep, unit
from .model import STAIN_SIZE
from .shapes import PLANK_WIDTH, beam, board, plank_run

LENGTH, DEPTH, RIDGE, EAVES = 12.0, 7.0, 4.2, 3.0
X0, X1, Z0, Z1 = -LENGTH / 2, LENGTH / 2, -DEPTH / 2, DEPTH / 2
SLIP_X0, SLIP_X1, SLIP_Z, SLIP_DROP = -2.9, 1.0, 0.2, 0.26  # from z = SLIP_Z down to the wall
DOOR_X0, DOOR_X1, DOOR_TOP = -3.4, 1.2, 2.7


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
    """Weatherboards along x; `openings` are (x0, x1, top) without boards."""
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
            beam(model, "timber", (x, RIDGE - 0.07, side * 0.02), (x, EAVES - 0.09, side * Z1),
                 0.07, 0.13)
        for z in (1.2, 2.45):  # purlins
            beam(model, "timber", (X0, roof_height(z) - 0.19, side * z),
                 (X1, roof_height(z) - 0.19, side * z), 0.11, 0.13)
        beam(model, "timber", (X0, EAVES - 0.12, side * (Z1 - 0.08)),
             (X1, EAVES - 0.12, side * (Z1 - 0.08)),
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
            beam(model, "timber", (x, EAVES, side * 0.1), (x, roof_height(1.3) - 0.16, side * 1.3),
                 0.08, 0.09)
            beam(model, "timber", (x, 2.2, side * (Z1 - 0.1)),
                 (x, EAVES - 0.18, side * (Z1 - 0.75)),
                 0.09, 0.09)
    for z in (-2.3, 1.85):  # posts of the far gable
        beam(model, "timber", (X0 + 0.09, 0, z), (X0 + 0.09, roof_height(z) - 0.1, z), 0.13, 0.13,
             up=(1, 0, 0))
    beam(model, "timber", (X0 + 0.09, EAVES - 0.1, Z0), (X0 + 0.09, EAVES - 0.1, Z1), 0.13, 0.17)


def slip_height(z):
    return -SLIP_DROP * min(1.0, max(0.0, (SLIP_Z - z) / (SLIP_Z - Z0)))


def floor(model, rng):
    """Concrete slabs with open joints; omitted at the slipway."""
    xs = [X0, -4.7, -3.8, SLIP_X0, -1.6, -0.3, SLIP_X1, 2.4, 3.6, 4.8, X1]
    zs = [Z0, -2.3, -1.05, SLIP_Z, 1.3, 2.4, Z1]
    for xa, xb in zip(xs, xs[1:]):
        for za, zb in zip(zs, zs[1:]):
            if SLIP_X0 <= xa < SLIP_X1 and zb <= SLIP_Z:
                continue
            y, g, b = rng.uniform(-0.0015, 0.0015), 0.003, 0.004
            low = [(xa + g, y - 0.02, za + g), (xa + g, y - 0.02, zb - g),
                   (xb - g, y - 0.02, zb - g),
                   (xb - g, y - 0.02, za + g)]
            c = ((xa + xb) / 2, 0, (za + zb) / 2)
            top = [(x + math.copysign(b, c[0] - x), y, z + math.copysign(b, c[2] - z))
                   for x, _, z in low]
            faces = [(4, 5, 6, 7)] + [(i, (i + 1) % 4, 4 + (i + 1) % 4, 4 + i) for i in range(4)]
            uvs = [tuple((x / STAIN_SIZE[0], z / STAIN_SIZE[1]) for x, _, z in top)]
            model.part(rng.choice(("floor", "floor", "floor_worn")), low + top, faces, decimals=4,
                       uvs=uvs)
    model.part("floor_worn", [(X0 - .2, -0.5, Z0 - .2), (X0 - .2, -0.5, Z1 + .2),
                              (X1 + .2, -0.5, Z1 + .2),
                         (X1 + .2, -0.5, Z0 - .2)], [(0, 1, 2, 3)])
    for x, inward in ((SLIP_X0, 1), (SLIP_X1, -1)):  # the kerbs beside the slipway
        kerb = [(x, 0, SLIP_Z), (x, 0, Z0), (x, -0.4, Z0), (x, -0.4, SLIP_Z)]
        model.part("floor_worn", kerb, [(0, 1, 2, 3) if inward < 0 else (3, 2, 1, 0)])
    # A bed of mortar under the slabs closes the joints.
    for low, high in (((X0, SLIP_Z), (X1, Z1)), ((X0, Z0), (SLIP_X0, SLIP_Z)),
                      ((SLIP_X1, Z0), (X1, SLIP_Z))):
        model.part("floor_worn", [(low[0], -0.012, low[1]), (low[0], -0.012, high[1]),
                                  (high[0], -0.012, high[1]), (high[0], -0.012,
                                          low[1])], [(0, 1, 2, 3)])


def slipway(model, rng):
    """Wet concrete with hand-tamped grooves across the slope and a slightly uneven surface."""
    waves = [(rng.uniform(2, 9), rng.uniform(2, 9), rng.uniform(0, 6.3), rng.uniform(0.3, 1))
             for _ in range(9)]

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
                board(model, rng, "door_paint", (x, low, z), (x, high, z), (1, 0, 0), (0, 0, 1), w,
                      0.024)
        for y in (pane_low - 0.03, pane_high + 0.03, 0.32, DOOR_TOP - 0.07):
            beam(model, "door_paint", (x0 + 0.02, y, z + 0.035), (x1 - 0.02, y, z + 0.035), 0.05,
                 0.12)
        beam(model, "door_paint", (x0 + 0.1, 0.42, z + 0.035), (x1 - 0.1, pane_low - 0.12,
                z + 0.035), 0.045, 0.11)
        panes = 5
        for k in range(panes + 1):
            x = x0 + 0.04 + (x1 - x0 - 0.08) * k / panes
            beam(model, "door_paint", (x, pane_low, z + 0.02), (x, pane_high, z + 0.02), 0.05,
                 0.06, up=(0, 0, 1))
        for k in range(panes):
            a = x0 + 0.04 + (x1 - x0 - 0.08) * k / panes
            b = x0 + 0.04 + (x1 - x0 - 0.08) * (k + 1) / panes
            tilt = rng.uniform(-0.004, 0.004)
            model.part("panes", [(a, pane_low, z + tilt), (b, pane_low, z - tilt),
                                 (b, pane_high, z - tilt),
                                 (a, pane_high, z + tilt)], [(0, 1, 2, 3)])
            m = (pane_low + pane_high) / 2
            beam(model, "door_paint", (a, m, z + 0.012), (b, m, z + 0.012), 0.03, 0.028)
    beam(model, "iron", (X0 + 0.3, DOOR_TOP + 0.06, Z0 + 0.12), (X1 - 0.3, DOOR_TOP + 0.06,
            Z0 + 0.12), 0.03, 0.06)
    for x in (DOOR_X0 + 0.4, middle - 0.4, middle + 0.4, DOOR_X1 - 0.4):
        beam(model, "iron", (x, DOOR_TOP - 0.12, Z0 + 0.1), (x, DOOR_TOP + 0.12, Z0 + 0.1), 0.06,
             0.02, up=(0, 0, 1))
    for x, material in ((DOOR_X0 - 0.07, "timber"), (DOOR_X1 + 0.07, "timber")):
        beam(model, material, (x, -0.3, Z0 + 0.05), (x, EAVES, Z0 + 0.05), 0.12, 0.14, up=(1, 0, 0))
