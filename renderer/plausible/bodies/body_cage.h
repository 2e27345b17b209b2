// A body's surface as a cage of short chords, with which crossings are found.
//
// The corners of the body's triangles are gathered in the cells of a grid, and each cell keeps the
// corner that is farthest out. Where an edge of a triangle joins two cells, a chord joins their
// corners. A chord over a curved surface is inside it by at most cell²/(8 r), with the radius of
// curvature r: 0.2 mm for a jar of 120 mm. Large triangles are divided first.
#pragma once

#include <vector>

#include "math/vec.h"

namespace dapple {

struct Chord {
    Point a{0}, b{0};
};

using BodyCage = std::vector<Chord>;

// `triangles`: three corners for each.
BodyCage make_cage(const std::vector<Point>& triangles);

Bounds bounds_of(const BodyCage& cage);

}  // namespace dapple
