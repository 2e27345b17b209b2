// Camera walks: from a pixel into the room.
#pragma once

#include <span>

#include "transport/light_walk.h"

namespace dapple {

// One of the walks that a pixel is given in each pass.
struct SampleNumber {
    int index = 0;
    int of = 1;  // the same in every pass
};

// A camera walk of pixel (x, y) in the stage's pass. Adds to `by_fixture` (one per fixture) the
// pixel's luminance in cd/m² at the pass's wavelengths, per unit of the group spectra.
void trace_camera_walk(const Stage& stage,
                       int x,
                       int y,
                       SampleNumber sample,
                       std::span<Spectrum> by_fixture,
                       WalkCounts& counts);

}  // namespace dapple
