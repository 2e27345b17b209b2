// The log luminance of a region without its slow gradients, on two halves of the walks.
//
// In each square cell a surface a + bx + cy + dx² + exy + fy² + g log2 ρ is fitted to log2 L by
// least squares. The remainder is log2 L less that surface, in stops. The logarithm of a Gaussian
// beam is exactly a quadratic surface, that of falloff nearly so: the fit removes both. The last
// term removes what is painted on the surface: ρ is the reflectance of what the pixel sees.
//
// The remainders of the two halves share the texture and no noise. So their covariance is the
// variance of the texture alone, however strong the noise is and however pixels share it.
#pragma once

#include <optional>
#include <vector>

#include "judge/region_image.h"

namespace dapple {

inline constexpr int kFitTerms = 7;

struct LogRemainder {
    int width = 0, height = 0;
    std::vector<float> first, second;  // stops, of L + H and L - H; NaN where nothing was fitted
    double covariance = 0;             // stops², corrected for the terms fitted
    double covariance_stderr = 0;      // by E162 in quarters of a cell

    size_t index(int x, int y) const {
        return static_cast<size_t>(y) * static_cast<size_t>(width) + static_cast<size_t>(x);
    }
};

// `cell`: side of a cell in pixels of the region. Returns nothing if no cell has enough pixels.
std::optional<LogRemainder> make_log_remainder(const RegionImage& region, int cell);

// Whether any pixel of the region is brighter than the floor of its logarithms.
bool is_lit(const RegionImage& region);

}  // namespace dapple
