// Completes the planes of a photometric file, which has only a part of them for a symmetric lamp.
#pragma once

#include <vector>

namespace dapple {

enum class PlaneSymmetry {
    kNone,
    kAxis,     // the same in all planes
    kC0,       // the same on both sides of the plane C0–C180
    kC90,      // the same on both sides of the plane C90–C270
    kQuarter,  // the same on both sides of both planes
};

struct CandelaPlane {
    double degrees = 0;
    int row = 0;  // of the candela table
};

// The planes from 0 to 360°, both included, rising. Empty if no plane is at 0° after unfolding.
std::vector<CandelaPlane> unfold_planes(const std::vector<CandelaPlane>& given,
                                        PlaneSymmetry symmetry);

}  // namespace dapple
