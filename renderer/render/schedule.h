// How blur shrinks from pass to pass, by the pass number alone, so that passes can be made anywhere
// and in any order (Knaus and Zwicker 2011).
//
// `first_px` is the radius of a splat in the first pass; 0: no blur at all.
#pragma once

#include <cstdint>

#include "render/splat_ellipse.h"

namespace dapple {

// The first pass makes do with a third of the light walks, and of the walks of pixels that are
// given several: a picture sooner, for a little more noise.
int light_walks_in_pass(int usual, uint32_t pass);

// The walks of one pixel in a pass, counted over all passes.
struct WalkNumbers {
    uint32_t first = 0;
    uint32_t count = 0;
};
WalkNumbers numbers_in_pass(uint32_t usual, uint32_t pass);

// Footprints: areas fall, and so do the largest half-axes, so that noise and blur both go (E53).
SplatRadii splat_radii_of_pass(double first_px, uint32_t pass);

// The share of the directions that a walk's footprint stands for, over its own (κ of E68).
float footprint_overlap(double first_px, uint32_t pass);

// How far dispersed wavelengths may land from each other and still be carried by one walk, px:
// first order in the dispersion, so that this too must shrink.
float dispersion_limit(double first_px, uint32_t pass);

// Radius of photon merging over that of the first pass: its area falls with the cube root of the
// passes (E64).
float shrink_of_pass(uint32_t pass);

}  // namespace dapple
