"""The skiff on its trestles."""
import math

from .vectors import add, cross, mix, sub
from .shapes import beam, tube

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
        bilge = 1.15 - 0.25 * abs(2 * s - 1)
        height = low + (high - low) * (1 - math.cos(u * math.pi / 2)) ** bilge
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
            rows.append([add(mix(a, b, k / 6), (0, 1, 0),
                             0.012 + 0.03 * math.sin(math.pi * k / 6) * boat.half_beam(s) / 0.3)
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
        post = [mix(boat.point(s, t), boat.point(s, -t), 0.5)
                for t in (0.0, 0.3, 0.5, 0.7, 0.85, 1.0)]
        tube(model, "gunwale", post + [add(post[-1], (0, 1, 0), 0.02)], 0.017, 8)
    for s in (0.40, 0.60):  # outriggers with their rowlocks
        for side in (-1, 1):
            gate = boat.place(HULL_LENGTH * (s - 0.5), boat.sheer(s) + 0.10, side * 0.74)
            for ds, low in ((-0.055, 0.0), (0.055, 0.0), (0.0, -0.14)):
                at = boat.point(s + ds, side * (1.0 if low == 0 else 0.72))
                tube(model, "iron", [at, mix(at, gate, 0.5), gate], 0.010, 6, decimals=3)
            tube(model, "iron", [add(gate, (0, 1, 0), -0.04), add(gate, (0, 1, 0), 0.09)], 0.011,
                 6, decimals=3)
            lock = [add(add(gate, boat.along, 0.035 * math.cos(a)), (0, 1, 0),
                        0.10 - 0.045 * math.sin(a))
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
            beam(model, "trestle", boat.place(length + lean * 0.175, -boat.keel_height + 0.22,
                                              -0.42),
                 boat.place(length + lean * 0.175, -boat.keel_height + 0.22, 0.42), 0.03, 0.07)
        beam(model, "trestle", boat.place(length, top - 0.02, -0.48),
             boat.place(length, top - 0.02, 0.48), 0.09, 0.09)
        for side in (-1, 1):  # padded cradle
            path = [boat.point(s, side * (0.12 + 0.40 * k / 8), -0.024) for k in range(9)]
            tube(model, "old rope", path, 0.020, 7)
            beam(model, "trestle", boat.place(length, top + 0.02, side * 0.27),
                 add(path[-1], (0, 1, 0), -0.03), 0.05, 0.05, up=boat.along)
