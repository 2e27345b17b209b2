"""Materials, and the parts that are written as OBJ and MTL."""
import os

# Linear Rec.709 reflectances. Dark-stained wood 0.05 to 0.12; concrete 0.30 clean and dry, here
# half of that after years of boots, 0.05 wet; brown wood as walnut, dark cloth as denim; skin is
# the mean of measured light-brown skin.
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
                # The image darkens by its mean; Kd compensates.
                scale = 1 / texture_means[image] if image else 1
                kd = tuple(scale * c for c in colour)
                out.write("\nnewmtl %s\nKd %.3g %.3g %.3g\n" % ((name,) + kd))
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
                        out.write("v %s\n" % " ".join(short(v, decimals)
                                                      for v in vertices[written]))
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
