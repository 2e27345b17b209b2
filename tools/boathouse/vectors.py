"""Vectors as tuples of three, and curves through points."""
import math


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
