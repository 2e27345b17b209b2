// How the number of walks and the blur change from pass to pass. Blur depends on the pass number
// alone, so passes can be made in any process and in any order (Knaus and Zwicker 2011).
//
// `first_px` is the radius of a splat in the first pass; 0: no blur.
#pragma once

#include <cstdint>

#include "render/splat_ellipse.h"

namespace dapple {

// The first pass has a third of the usual light walks. Pixels with several camera walks also have a
// third of them. The first picture is then ready sooner, with a little more noise.
int light_walks_in_pass(int usual, uint32_t pass);

// Light walks of a usual pass over those of this pass, without the rounding of
// light_walks_in_pass().
float usual_light_walks_per(uint32_t pass);

// The numbers of one pixel's walks in a pass, counted over all passes.
struct WalkNumbers {
    uint32_t first = 0;
    uint32_t count = 0;
};
WalkNumbers numbers_in_pass(uint32_t usual, uint32_t pass);

// Radii of splats (E107). Both noise and blur vanish with the passes, because the areas and the
// largest half-axes shrink.
SplatRadii splat_radii_of_pass(double first_px, uint32_t pass);

// The solid angle of a walk's footprint over the solid angle of one walk (κ of E76).
float footprint_overlap(double first_px, uint32_t pass);

// The limit ℓ below which one walk carries all its dispersed wavelengths, px (E79). Their places
// are exact to first order in the dispersion, so the limit shrinks too.
float dispersion_limit(double first_px, uint32_t pass);

// The radius of photon merging over its radius in the first pass. The area falls with the cube root
// of the pass number (E92).
float merge_radius_factor(uint32_t pass);

// How far the glow of haze is spread (E103): standard deviations of the spread in each direction,
// px. Two dimensions are blurred, so the exponent is -1/6. `width`: of the frame, px.
struct GlowSpread {
    float near = 0, far = 0;
};
GlowSpread glow_spread_of_pass(double first_px, int width, uint32_t pass);

// The radius of a beam in haze over its radius in the first pass (E99). One dimension is blurred,
// so the exponent is -1/5 (Knaus and Zwicker 2011; Jarosz et al. 2011).
float beam_radius_factor(uint32_t pass);

}  // namespace dapple
