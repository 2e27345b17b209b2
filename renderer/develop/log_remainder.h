// What the slow gradients of a region leave of its log luminance.
//
// In each square cell a quadratic surface a + bx + cy + dx² + exy + fy² is fitted to log2 L by
// least squares; the field holds what remains, in stops. A Gaussian beam is exactly such a surface
// in the logarithm, and falloff nearly so: both vanish.
#pragma once

#include <optional>
#include <vector>

#include "develop/pattern.h"

namespace dapple {

inline constexpr int kFitCells = 6;    // along a region's longer side
inline constexpr int kFitCellPx = 16;  // at least
inline constexpr int kFitTerms = 6;

struct LogRemainder {
    int width = 0, height = 0;
    std::vector<float> stops;  // NaN where nothing was fitted
    double variance = 0;       // stops², corrected for the terms fitted: noise and texture
    double noise = 0;          // stops², of that: the noise

    float at(int x, int y) const {
        return stops[static_cast<size_t>(y) * static_cast<size_t>(width) + static_cast<size_t>(x)];
    }
};

// `cell`: side in the region's own pixels. None where no cell holds enough, or all is unlit.
std::optional<LogRemainder> make_log_remainder(const RegionImage& region, int cell);

}  // namespace dapple
