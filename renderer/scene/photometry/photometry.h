// Candela by direction, from a photometric file whose symmetry has been unfolded.
//
// `polar` is the angle from the fixture's axis, which is straight down in the file. `azimuth` is
// the angle from the fixture's right, anticlockwise as seen along the axis. Candela are linear
// between the angles, in both directions. Below the first and above the last polar angle there is
// no light.
#pragma once

#include <cstddef>
#include <vector>

namespace dapple {

struct Photometry {
    std::vector<double> polar;    // rad, 0 to π, rising, at least two
    std::vector<double> azimuth;  // rad, rising from 0 to 2π, both included
    std::vector<double> candela;  // [azimuth][polar]

    double at(size_t azimuth_index, size_t polar_index) const {
        return candela[azimuth_index * polar.size() + polar_index];
    }
};

}  // namespace dapple
