// Share of a region's pixels that a test picks, with its standard error.
#pragma once

#include <cmath>

#include "judge/region_image.h"

namespace dapple {

// `test` is called with a luminance in cd/m². The error is by E162 in parts of `part` px.
template <typename Test>
Measure measure_share(const RegionImage& region, int part, const Test& test) {
    int64_t pixels = 0;
    int64_t picked = 0;
    double squares = 0;
    for (int y0 = 0; y0 < region.height; y0 += part) {
        for (int x0 = 0; x0 < region.width; x0 += part) {
            int difference = 0;
            for (int y = y0; y < std::min(y0 + part, region.height); ++y) {
                for (int x = x0; x < std::min(x0 + part, region.width); ++x) {
                    const size_t i = region.index(x, y);
                    if (!region.inside[i]) continue;
                    ++pixels;
                    picked += test(region.luminance[i]) ? 1 : 0;
                    difference += test(region.luminance[i] + region.noise[i]) ? 1 : 0;
                    difference -= test(region.luminance[i] - region.noise[i]) ? 1 : 0;
                }
            }
            squares += 0.25 * difference * difference;
        }
    }
    if (pixels == 0) return Measure::unknown(kNoPixels);
    const auto count = static_cast<double>(pixels);
    return Measure::known(static_cast<double>(picked) / count, std::sqrt(squares) / count);
}

}  // namespace dapple
