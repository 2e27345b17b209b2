// The colours of the stops map: one ramp from a dark violet by way of blue, green and sand to a
// pale cream, for stops about mid-grey.
//
// It is made in CIELAB (CIE 15:2018), with D65 as white:
//   L* = 10 + 86 t,  C*ab = (26 - 8 sin 2πt)(1 - 0.35 t³),  h = 300° - 205° t             (E158)
// and cut into steps of equal colour difference ΔE*ab. L* rises all the way, so the order is kept
// in greyscale and for the colour-blind; equal steps of light look like equal steps. Our own.
#pragma once

#include "math/vec.h"

namespace dapple {

// The stops about mid-grey (18 %) that the ramp covers; beyond, the end colours are kept.
inline constexpr double kRampFirstStop = -6;
inline constexpr double kRampLastStop = 4;
inline constexpr double kMidGrey = 0.18;

// sRGB encoded, 0 to 1. `t` from 0 to 1 along the ramp.
Rgb ramp_colour(double t);
// Of a luminance in stops about mid-grey; -infinity is the first colour.
Rgb colour_of_stops(double stops);

// CIELAB of an sRGB-encoded colour.
struct Lab {
    double l = 0, a = 0, b = 0;
};
Lab lab_of_srgb(const Rgb& encoded);

}  // namespace dapple
