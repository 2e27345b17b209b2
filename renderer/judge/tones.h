// Deep shadow and clipping of a part of the frame: shares of its pixels by the thresholds of E159.
//
// They are counted on blocks of b × b px, b the smallest power of two that brings the noise to 20 %
// of the local mean, at most 8 px: a grainy pixel is not a black one.
#pragma once

#include "judge/region_image.h"

namespace dapple {

struct Tones {
    Measure deep_shadow;  // share, 0 to 1
    Measure clipped;
};

Tones measure_tones(const RegionImage& region, double white_luminance);

}  // namespace dapple
