"""Things in the shed: oars, ropes, floats, a bucket, a ladder."""
import math

from .vectors import add, cross, smoothstep, sub, unit
from .shapes import beam, ellipsoid, lathe, tube
from .shed import X0


def oar(model, foot, lean):
    """An oar, blade up. `lean`: offset of the top from the foot, in x and z."""
    length = 2.85
    top = (foot[0] + lean[0], math.sqrt(length ** 2 - lean[0] ** 2 - lean[1] ** 2),
           foot[2] + lean[1])
    along = unit(sub(top, foot))
    right = unit(cross(along, (1, 0, 0)))
    front = cross(right, along)

    def at(d):
        return add(foot, along, d)

    tube(model, "old rope", [at(0.0), at(0.16)], 0.017, 10)
    tube(model, "oar shaft", [at(0.16), at(0.17), at(1.2), at(2.25), at(2.78)],
         [0.019, 0.023, 0.023, 0.019, 0.008], 10)
    tube(model, "bucket", [at(0.86), at(1.08)], 0.027, 10)
    for material, low, high, steps in (("oar_blade", 2.22, 2.72, 8), ("oar_band", 2.72, 2.85, 4)):
        rows = []
        for k in range(steps + 1):
            d = low + (high - low) * k / steps
            w = 0.088 * smoothstep(2.18, 2.50, d) * (1 - 0.65 * smoothstep(2.78, 2.86,
                    d) ** 2) + 0.004
            c = add(at(d), front, 0.04 * smoothstep(2.2, 2.85, d) ** 2)
            rows.append([add(add(c, right, w * x), front, 0.006 * f - 0.02 * x * x * w / 0.088)
                         for x, f in ((-1, 0), (-0.5, 1), (0, 1.5), (0.5, 1), (1, 0), (0.5, -1),
                                      (0, -1), (-0.5, -1))])
        model.grid(material, rows, closed=True, decimals=3)
    ends = rows[-1]
    model.part("oar_band", ends, [tuple(range(8)), tuple(range(7, -1, -1))])


def oar_rack(model):
    for y in (0.62, 1.86):
        beam(model, "timber", (X0 + 0.07, y, 2.02), (X0 + 0.07, y, 3.34), 0.05, 0.10)
    for k in range(6):
        z = 2.14 + 0.215 * k
        for side in (-0.05, 0.05):
            tube(model, "trestle", [(X0 + 0.08, 1.86, z + side), (X0 + 0.19, 1.88, z + side)],
                 0.010, 8)
        oar(model, (X0 + 0.27 + 0.02 * (k % 2), 0.0, z + 0.01), (-0.17, 0.0))


def rope_coil(model, centre, turns, radius, rope, rng):
    path = []
    for k in range(turns * 26):
        a = 2 * math.pi * k / 26
        turn = k / 26
        layer = int(turn) % 4
        r = radius - 0.02 * math.sin(turn * 1.9) + rng.uniform(-0.004, 0.004)
        path.append((centre[0] + r * math.cos(a), centre[1] + rope + turn * rope * 0.98
                     + 0.004 * math.sin(3 * a + layer),
                     centre[2] + r * math.sin(a)))
    for k in range(1, 15):  # the rope's end on the floor
        a = 2 * math.pi * k / 30
        r = radius + 0.03 * k
        path.insert(0, (centre[0] + r * math.cos(-a), centre[1] + rope,
                        centre[2] + r * math.sin(-a)))
    tube(model, "old rope", path, rope, 6)


def hanging_rope(model, peg, drop, rng):
    """Loops of rope over a peg that stands out along +x."""
    for k in range(6):
        width, long = 0.10 + 0.012 * k + rng.uniform(-0.01, 0.01), drop * (1 + rng.uniform(-0.10,
                0.10))
        path = []
        for j in range(24):
            a = 2 * math.pi * j / 24
            y = long / 2 * math.cos(a)
            path.append((peg[0] + 0.03 + 0.022 * k, peg[1] - long / 2 + y + 0.01,
                         peg[2] + width * math.sin(a) * (0.75 - 0.25 * math.cos(a))))
        tube(model, "old rope", path, 0.011, 5, closed=True)
    tube(model, "iron", [(peg[0] - 0.03, peg[1], peg[2]), (peg[0] + 0.2, peg[1] + 0.02, peg[2])],
         0.012, 8)


def buoy(model, material, hook, drop, radius):
    """A float on a short line from a hook."""
    ellipsoid(model, material, add(hook, (0, -drop - radius * 1.25, 0)),
              (radius, radius * 1.2, radius))
    c = add(hook, (0, -drop - radius * 1.25, 0))
    lathe(model, "buoy_white", [(radius * 1.004 * math.cos(e), radius * 1.204 * math.sin(e))
                                for e in (-0.22, -0.1, 0, 0.1, 0.22)], c, 22)
    lathe(model, "iron", [(0.024, radius * 1.12), (0.028, radius * 1.2), (0.020, radius * 1.32),
                          (0.0, radius * 1.34)], c, 14)
    tube(model, "old rope", [add(c, (0, radius * 1.3, 0)), hook], 0.008, 6)
    tube(model, "iron", [add(hook, (-0.06, 0, 0)), add(hook, (0.01, 0.0, 0)),
                         add(hook, (0.03, 0.03, 0))], 0.007, 6)


def bucket(model, centre):
    lathe(model, "bucket", [(0.0, 0.004), (0.108, 0.004), (0.112, 0.0), (0.116, 0.02),
                            (0.126, 0.10), (0.129, 0.105),
                            (0.130, 0.12), (0.148, 0.27), (0.154, 0.275), (0.155, 0.283), (0.150,
                                    0.287), (0.145, 0.28),
                            (0.112, 0.03), (0.0, 0.02)], centre, 36)
    handle = [(centre[0] + 0.153 * math.cos(a), centre[1] + 0.262 - 0.05 * math.sin(a),
               centre[2] + 0.155 * math.sin(a) * 0.98)
              for a in (math.pi * k / 16 for k in range(17))]
    tube(model, "iron", handle, 0.005, 6)


def ladder(model):
    for z in (-2.66, -3.08):
        beam(model, "ladder", (-5.28, 0, z), (-5.90, 2.86, z), 0.035, 0.075, up=(1, 0, 0))
    for k in range(9):
        t = 0.09 + 0.102 * k
        x, y = -5.28 - 0.62 * t, 2.86 * t
        tube(model, "ladder", [(x, y, -2.66), (x, y, -3.08)], 0.017, 9)
