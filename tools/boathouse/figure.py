"""The lay figure and its cape."""
import math

from .vectors import add, cross, dot, mix, smoothstep, sub, through, unit
from .shapes import ellipsoid


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
    (0.79, 0.060, 0.055, 0.0), (0.83, 0.135, 0.095, -0.006), (0.90, 0.168, 0.112, -0.008), (0.97,
            0.160, 0.104, -0.004),
    (1.06, 0.136, 0.092, 0.004), (1.14, 0.140, 0.096, 0.010), (1.24, 0.163, 0.110, 0.012), (1.32,
            0.176, 0.108, 0.004),
    (1.38, 0.168, 0.092, -0.006), (1.42, 0.125, 0.074, -0.010), (1.45, 0.082, 0.064,
            -0.012), (1.475, 0.062, 0.058, -0.010)]


def torso():
    rows = []
    for y, a, b, z in through(TORSO, 20):
        rows.append([(a * math.cos(t), y, z + b * math.sin(t)) for t in (-2 * math.pi * k / 22
                for k in range(22))])
    return rows


def bump(azimuth, elevation, a, e, wide, high, height):
    return height * math.exp(-((azimuth - a) / wide) ** 2 - ((elevation - e) / high) ** 2)


def face_shape(azimuth, elevation):
    """An egg-shaped skull with simplified brow, nose, cheeks, lips and chin."""
    a, e = abs(azimuth), elevation
    k = 1.0
    k -= 0.15 * smoothstep(-0.1, -1.1, e) * (0.6 + 0.4 * math.cos(azimuth) ** 2) * (1
            if a < 1.9 else 0.6)
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
    """The skull's shape, larger where hair grows and inside the head elsewhere."""
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
    for d, w, t in through([(-0.01, 0.024, 0.020), (0.02, 0.030, 0.017), (0.055, 0.041, 0.014),
                            (0.092, 0.040, 0.011)], 7):
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
    """Makes the parts of the body. Returns local points that must stay inside the cape."""
    body = torso()
    to_world(model, "wool", pose, body, flip=False)
    solid = [p for row in body for p in row]
    neck = limb([(0, 1.43, -0.012, 0.058), (0, 1.48, -0.006, 0.050), (0, 1.55, 0.002, 0.050)], 6,
                20)
    to_world(model, "skin", pose, neck, flip=False)
    solid += [p for row in neck for p in row]
    # A rolled collar of the pullover.
    collar = limb([(0, 1.447, -0.012, 0.072), (0, 1.462, -0.010, 0.068),
                   (0, 1.478, -0.008, 0.064)], 6, 24)
    to_world(model, "wool", pose, collar, flip=False)
    solid += [p for row in collar for p in row]
    head(model, pose, math.radians(22), 0.04)

    arms = {
        "left": [(0.176, 1.385, -0.012), (0.232, 1.115, -0.035), (0.236, 0.885, 0.045)],
        "right": [(-0.176, 1.385, -0.012), (-0.262, 1.125, 0.045), (-0.225, 1.205, 0.285)],
    }
    for name, (shoulder, elbow, wrist) in arms.items():
        upper = limb([shoulder + (0.056,), mix(shoulder, elbow, 0.45) + (0.050,),
                      elbow + (0.043,)], 8, 16)
        to_world(model, "wool", pose, upper, flip=False)
        sleeve = limb([elbow + (0.043,), mix(elbow, wrist, 0.3) + (0.042,),
                       mix(elbow, wrist, 0.62) + (0.037,)], 7, 18)
        to_world(model, "wool", pose, sleeve, flip=False)
        cuff = mix(elbow, wrist, 0.64)
        lower = limb([mix(elbow, wrist, 0.5) + (0.033,), cuff + (0.030,), wrist + (0.024,)], 6, 18)
        to_world(model, "skin", pose, lower, flip=False)
        solid += [p for row in upper for p in row]
        if name == "left":
            solid += [p for row in sleeve + lower for p in row]
        if name == "left":
            hand(model, pose, wrist, unit((0.02, -1, 0.22)), unit((-1, 0, 0.15)), 0.05,
                 fingers=False)
        else:
            towards = unit(sub(wrist, elbow))
            towards = unit(add(towards, (0.10, -0.05, 0)))
            palm = unit(cross(towards, (-1.0, 0.15, -0.2)))
            palm = palm if palm[1] > 0 else tuple(-x for x in palm)
            hand(model, pose, wrist, towards,
                 unit(sub(palm, tuple(dot(palm, towards) * t for t in towards))), 0.16)

    for side, knee_forward in ((1, 0.030), (-1, 0.012)):
        hip, knee = (side * 0.088, 0.875, -0.005), (side * 0.098, 0.480, knee_forward)
        ankle = (side * 0.108, 0.075, -0.020 + knee_forward * 0.5)
        leg = limb([hip + (0.090,), mix(hip, knee, 0.5) + (0.078,), knee + (0.061,),
                    mix(knee, ankle, 0.3) + (0.060,),
                    mix(knee, ankle, 0.6) + (0.058,)], 14, 20)
        to_world(model, "wool", pose, leg, flip=False)
        solid += [p for row in leg for p in row]
        boot = limb([mix(knee, ankle, 0.16) + (0.069,), mix(knee, ankle, 0.35) + (0.067,),
                     mix(knee, ankle, 0.7) + (0.056,),
                     ankle + (0.050,), (ankle[0], 0.045, ankle[2] - 0.004, 0.046)], 12, 20)
        to_world(model, "boots", pose, boot, flip=False)
        foot = []
        turn = side * 0.16
        for d, w, h in through([(-0.085, 0.012, 0.030), (-0.070, 0.038, 0.060),
                                (-0.02, 0.043, 0.075), (0.05, 0.043, 0.062),
                                (0.12, 0.051, 0.048), (0.165, 0.043, 0.036), (0.190, 0.012,
                                        0.020)], 15):
            x, z = ankle[0] + math.sin(turn) * d, ankle[2] + math.cos(turn) * d
            foot.append([(x + math.cos(turn) * w * math.cos(a),
                          max(0.0, h / 2 + h * 0.62 * math.sin(a)),
                          z - math.sin(turn) * w * math.cos(a)) for a in (2 * math.pi * k / 18
                                  for k in range(18))])
        to_world(model, "boots", pose, foot, flip=False)
    return solid


def cape(model, pose, solid, rng):
    """An open sheet that hangs from the shoulders: the body's convex outline at each height, never
    narrower than the outline above, with folds that open towards the hem. Returns its smallest
    distance from the body in metres.
    """
    columns, levels = 80, 36
    open_from, open_to = math.radians(-58), math.radians(14)  # from the front, positive to the left
    step = math.radians(4)
    directions = [k * step for k in range(90)]
    hem, top = 0.52, 1.478
    heights = [top - (top - hem) * ((0.30 * k / (levels - 1)) + 0.70 * (k / (levels - 1)) ** 1.9)
               for k in range(levels)]
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
            r = min(h / math.cos(a - d) for h, d in zip(support, directions)
                    if math.cos(a - d) > 0.2)
            edge = smoothstep(0, 0.25, min(c, columns - 1 - c) / columns)
            wave = 0.55 * math.cos(11 * a + phases[0]
                                   + 0.9 * math.sin(2 * a + phases[1])) + 0.45 * math.cos(
                6 * a + phases[2] + 0.7 * y)
            fold = (0.5 + 0.5 * wave) ** 1.6 * 0.115 * (fall / 0.84) ** 0.8
            drag = 0.03 * fall * math.cos(a - math.radians(150))  # the cape trails slightly behind
            r += 0.031 + fold + drag + 0.10 * fall ** 1.3 + 0.012 * (1 - edge) * fall
            lift = 0.024 * smoothstep(1.20, 1.38, y) + 0.010 * math.sin(5 * a
                    + phases[3]) * smoothstep(0.75, 0.52, y)
            row.append((r * math.sin(a), y + lift, r * math.cos(a)))
        rows.append(row)
    # Soften the corners of the outline, in both directions.
    for _ in range(3):
        rows = [[tuple(0.5 * q + 0.125 * (a + b + c + d) for q, a, b, c, d in zip(
            row[c], row[max(c - 1, 0)], row[min(c + 1, columns - 1)], rows[max(r - 1,
                    0)][c], rows[min(r + 1, levels - 1)][c]))
                 for c in range(columns)] for r, row in enumerate(rows)]
    model.grid("cape", [[pose.world(p) for p in row] for row in rows], flip=True)
    return math.sqrt(min(dot(sub(p, q), sub(p, q)) for row in rows for q in row for p in solid
                         if abs(p[1] - q[1]) < 0.05))
