// A photometric file's planes, of which a symmetric lamp has only a part, all the way round.
#pragma once

#include <vector>

namespace dapple {

enum class PlaneSymmetry {
    kNone,
    kAxis,     // one plane for all
    kC0,       // the same on both sides of the plane C0–C180
    kC90,      // of the plane C90–C270
    kQuarter,  // of both
};

struct Plane {
    double degrees = 0;
    int row = 0;  // of the candela table
};

// Planes from 0 to 360°, both there, rising. Empty where none lies at 0° after unfolding.
std::vector<Plane> unfold_planes(const std::vector<Plane>& given, PlaneSymmetry symmetry);

}  // namespace dapple
