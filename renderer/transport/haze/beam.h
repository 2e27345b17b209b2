// Beams: the straight parts of light walks through haze, behind mirrors and smooth glass.
#pragma once

#include <cstdint>
#include <vector>

#include "math/vec.h"
#include "spectrum/packed_spectrum.h"

namespace dapple {

struct Beam {
    Point origin{0};
    Direction direction{0, 0, 1};
    float length = 0;     // m, to the next surface
    PackedSpectrum flux;  // at its origin, lm per unit of the fixture's group spectra
    int16_t fixture = 0;
    int16_t edge = 0;  // number of the light walk's edge
};

using BeamList = std::vector<Beam>;

}  // namespace dapple
