// The log luminance of a region without its slow gradients.
//
// In each square cell a quadratic surface a + bx + cy + dx² + exy + fy² is fitted to log2 L by
// least squares. The remainder is log2 L less that surface, in stops. The logarithm of a Gaussian
// beam is exactly such a surface, that of falloff nearly so: the fit removes both.
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
    double variance = 0;       // stops², of noise and texture, corrected for the terms fitted
    double noise = 0;          // stops², the part of `variance` that is noise

    float at(int x, int y) const {
        return stops[static_cast<size_t>(y) * static_cast<size_t>(width) + static_cast<size_t>(x)];
    }
};

// `cell`: side of a cell in pixels of the region. Returns nothing if no cell has enough pixels or
// the region is unlit.
std::optional<LogRemainder> make_log_remainder(const RegionImage& region, int cell);

}  // namespace dapple
