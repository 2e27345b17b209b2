// What a pattern of light does to a region of the frame: uniformity, texture, patch size, cover.
//
// All measures work on the luminance L of the region's pixels and on the variance σ² of the noise
// in each (σ from the spread over passes, taken as independent from pixel to pixel).
//
// Uniformity   U0 = min / mean of cell means (EN 12464-1)                               (E111)
//   Cells are squares of a sixteenth of the region's longer side, at least 8 px, so that the
//   darkest cell is not dark by noise. Cells less than half inside the region are left out.
// Texture      T² = Σ RSS / Σ (n - 6) - mean σ²/(L ln2)²,  texture = T stops             (E112)
//   In cells of a sixth of the longer side (at least 16 px) a quadratic surface is fitted to
//   log2 L; RSS is the sum of squares of the remainder. The fit removes beams and falloff, and
//   keeps what repeats within a cell. T is a standard deviation: stripes one stop apart, half and
//   half, give 0.5. The edge of a flat-topped beam looks like a stripe to the fit: it leaves 0.08
//   where its half-light radius is a quarter of the longer side, and 0.2 where it is an eighth
//   (n = 4 over 1 % of other light).
// Patch size   full width of the autocorrelation A of that remainder at half of the way from its
//   peak to its first minimum, in the narrowest of four directions                       (E113)
//   Stripes of width w give w, whatever their number and the width of the gaps. If cells twice as
//   wide leave more than twice the variance, most of the pattern is wider than a cell and no size
//   is reported.
// Cover        share of the region with L > B/2,  B = Σ(L² - σ²) / ΣL                    (E114)
//   B is the mean luminance weighted by luminance. Even light covers 1; patches on black cover
//   their share of the area.
// Texture, patch size and cover are measured on blocks of b × b px, b the smallest power of two
// that brings the noise to 20 % of the local mean. So a noisy frame shows less texture, not more.
// If the largest blocks, eight across a cell, still have more than 30 % of noise, nothing is
// reported.
// E111 is the standard's; E112 to E114 are our own.
#pragma once

#include <optional>
#include <vector>

namespace dapple {

// The part of the frame that holds a region, cut out along pixel edges.
struct RegionImage {
    int width = 0, height = 0;
    double pixel_m = 0;             // width of a pixel on the surface, m; 0: not known
    double floor = 0;               // cd/m²; darker pixels count as this in logarithms
    bool noise_known = true;        // false after a single pass
    std::vector<double> luminance;  // cd/m²
    std::vector<double> variance;   // (cd/m²)²
    std::vector<char> inside;       // 1: belongs to the region

    size_t index(int x, int y) const {
        return static_cast<size_t>(y) * static_cast<size_t>(width) + static_cast<size_t>(x);
    }
};

struct Uniformity {
    double u0 = 0;
    double stderr_of_u0 = 0;  // noise of the darkest cell alone
};

struct Pattern {
    double texture_stops = 0;
    std::optional<double> patch_px;  // nothing if the texture is too weak or too wide
    std::optional<double> patch_cm;  // nothing also if the pixel's size is not known
    double cover = 0;
    int block_px = 1;  // b
};

// Returns nothing if fewer than four cells are in the region, or if it is unlit.
std::optional<Uniformity> measure_uniformity(const RegionImage& region);

// Returns nothing if the region is too small for a cell, unlit or too noisy, or if its noise is not
// known.
std::optional<Pattern> measure_pattern(const RegionImage& region);

}  // namespace dapple
