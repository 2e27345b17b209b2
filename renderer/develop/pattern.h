// What a pattern of light does to a region of the frame: uniformity, texture, patch size, cover.
//
// All measures work on the luminance L of the region's pixels and on the variance σ² that noise
// has given each (σ from the spread over passes, taken as independent from pixel to pixel).
//
// Uniformity   U0 = min / mean of cell means (EN 12464-1)                                 (D9)
//   Cells are squares of a sixteenth of the region's longer side, at least 8 px, so that noise
//   does not make the darkest one; cells less than half inside the region are left out.
// Texture      T² = Σ RSS / Σ (n - 6) - mean σ²/(L ln2)²,  texture = T stops              (D10)
//   In cells of a sixth of the longer side (at least 16 px) a quadratic surface is fitted to
//   log2 L; RSS is what it leaves: beams and falloff go, what repeats within a cell stays.
//   Standard deviation: stripes one stop apart, half and half, give 0.5. The edge of a flat-topped
//   beam leaves 0.08 where its half-light radius is a quarter of the longer side and 0.2 where an
//   eighth (n = 4 over 1 % of other light): a fit cannot tell it from a stripe.
// Patch size   half of the way from the peak of the autocorrelation A of that remainder to its
//   first minimum; full width, in the narrowest of four directions                        (D11)
//   Stripes of width w give w, whatever their number or what lies between wider ones. Where cells
//   twice as wide leave more than twice the variance, most of what varies is wider than a cell and
//   no size is claimed.
// Cover        share of the region with L > B/2,  B = Σ(L² - σ²) / ΣL                     (D12)
//   B is the luminance where the region's average lumen falls: even light covers 1, patches on
//   black cover their share of the area.
// Texture, patch size and cover are measured on blocks of b × b px, b the smallest power of two
// that brings the noise to 20 % of the local mean: a noisy frame shows less texture, not more.
// Where even eight blocks across a cell keep more than 30 % of noise, nothing is claimed.
// D9 is the standard's; D10 to D12 are our own.
#pragma once

#include <optional>
#include <vector>

namespace dapple {

// The part of the frame that holds a region, cut out along pixel edges.
struct RegionImage {
    int width = 0, height = 0;
    double pixel_m = 0;             // width of a pixel on the surface, m; 0: not known
    double floor = 0;               // cd/m², logarithms see nothing darker
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
    std::optional<double> patch_px;  // none where texture is too little or too wide
    std::optional<double> patch_cm;  // none too where the pixel's size is not known
    double cover = 0;
    int block_px = 1;  // b
};

// None where fewer than four cells lie in the region, or where it is unlit.
std::optional<Uniformity> measure_uniformity(const RegionImage& region);

// None where the region is too small for a cell, unlit, too noisy, or its noise not known.
std::optional<Pattern> measure_pattern(const RegionImage& region);

}  // namespace dapple
