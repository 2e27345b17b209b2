// Candela by direction, as a photometric file gives them, with its symmetry unfolded.
//
// Directions are told from the fixture's axis (a file's straight down): `polar` is the angle from
// it, `azimuth` goes anticlockwise for someone who looks along it, from the fixture's right.
// Between the angles candela run straight in both; beyond the first and the last polar angle there
// is no light.
#pragma once

#include <cstddef>
#include <vector>

namespace dapple {

struct Photometry {
    std::vector<double> polar;    // rad, 0 to π, rising, at least two
    std::vector<double> azimuth;  // rad, rising from 0 to 2π, both there
    std::vector<double> candela;  // [azimuth][polar]

    double at(size_t azimuth_index, size_t polar_index) const {
        return candela[azimuth_index * polar.size() + polar_index];
    }
};

}  // namespace dapple
