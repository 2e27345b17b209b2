"""Two grey textures, made of smooth noise that repeats: wood grain and stained concrete."""
import os
import random
import struct
import zlib


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
        check = struct.pack(">I", zlib.crc32(kind + data))
        return struct.pack(">I", len(data)) + kind + data + check

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
             for cx, cy, k in ((3, 24, 0.5), (5, 64, 0.7), (9, 128, 0.8), (60, 128, 0.25),
                               (12, 8, 0.3))]
    side = 192
    stain = [[[k * v for v in row] for row in tiling_noise(rng, side, side, c, c)]
             for c, k in ((3, 0.8), (6, 0.6), (13, 0.5), (31, 0.35), (96, 0.25))]
    return {"grain.png": write_texture(os.path.join(folder, "grain.png"), grain, 0.30),
            "stain.png": write_texture(os.path.join(folder, "stain.png"), stain, 0.17)}
