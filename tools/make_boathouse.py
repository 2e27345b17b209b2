#!/usr/bin/env python3
"""Writes scenes/boathouse/boathouse.obj, its .mtl and two textures: the boat shed of the demo set.

    tools/make_boathouse.py [FOLDER]

It uses Python's standard library only. Every random number has a fixed seed, so the script always
writes the same files. World: right-handed, metres, y up, x along the shed (-6 to 6), z across it (-3.5
to 3.5), floor at y = 0. Curved objects have a smoothing group and no normals. Faces use relative
indices that count back from the last vertex (OBJ allows it), which keeps the file small.
"""
import math
import os
import random
import sys

sys.dont_write_bytecode = True  # leave no files beside the modules

from boathouse.model import Model
from boathouse.textures import write_textures
from boathouse.shed import (
    DOOR_TOP, DOOR_X0, DOOR_X1, X0, X1, Z0, Z1, door, floor, frame_timbers, gable, roof,
    side_wall, slip_height, slipway)
from boathouse.skiff import Skiff, skiff, trestles
from boathouse.gear import bucket, buoy, hanging_rope, ladder, oar_rack, rope_coil
from boathouse.figure import Pose, cape, figure


def build():
    model, rng = Model(), random.Random(20)
    joints = [0.55, 1.25, 2.3, 3.1, 4.6, 5.25, 6.2]
    shed = [("far gable", lambda: gable(model, rng, X0, 1, joints)),
            ("near gable", lambda: gable(model, rng, X1, -1, [])),
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
    print("%d triangles; the cape is at least %.0f mm from the body" % (model.triangles(),
            clearance * 1000))


if __name__ == "__main__":
    main()
