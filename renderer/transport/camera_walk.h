// Camera walks: from a pixel into the room.
#pragma once

#include <span>

#include "transport/light_walk.h"

namespace dapple {

// The hero of a pixel's walk. In eight walks of a pixel each wavelength is the hero once, two or
// four walks spread their heroes over the spectrum, and any 3 × 3 pixels have all eight in each
// pass. Neighbours that missed the same colours would show as coloured stripes in glass.
int hero_of_pixel_walk(int x, int y, uint32_t number);

// Traces one camera walk of pixel (x, y) in the stage's pass. `number` counts the pixel's walks
// over all passes. Adds to `by_fixture` (one per fixture) the pixel's luminance in cd/m² at the
// pass's wavelengths, per unit of the group spectra.
void trace_camera_walk(const Stage& stage,
                       int x,
                       int y,
                       uint32_t number,
                       std::span<Spectrum> by_fixture,
                       WalkCounts& counts);

}  // namespace dapple
