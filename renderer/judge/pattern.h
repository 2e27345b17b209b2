// What a pattern of light does to a region of the frame: texture, patch size, cover.
//
// Texture      T² = Σ r₁r₂ / Σ (n - 7),  texture = T stops                              (E166)
//   In cells of a sixth of the longer side (at least 16 px) a quadratic surface and the logarithm
//   of the reflectance are fitted to log2 of each half of the light; r₁ and r₂ are the remainders
//   (log_remainder.h). The fit removes beams, falloff and paint, and keeps what repeats within a
//   cell. T is a standard deviation: stripes one
//   stop apart, half and half, give 0.5. The edge of a flat-topped beam looks like a stripe to the
//   fit: it leaves 0.08 where its half-light radius is a quarter of the longer side, and 0.2 where
//   it is an eighth (n = 4 over 1 % of other light).
//   T² of an even region is 0 on average, with the error e (E162), above 0 as often as below. So
//   T = √(T² (1 - (e/T²)²)), 0 where T² is below e; its error is that of the farther of T² ± e.
// Patch size   full width of the correlation A of r₁ with r₂ at half of the way from its peak to
//   its first minimum, in the narrowest of four directions                              (E167)
//   A direction counts if its minimum is at least three quarters as deep as the deepest.
//   Stripes of width w give w, whatever their number and the width of the gaps. If cells twice as
//   wide leave more than 1.2 times the variance, some of the pattern is wider than a cell, and
//   those cells are used, on blocks twice as wide; and so on up to cells of two thirds of the
//   longer side. The error is that of leaving out each eighth of the rows.
// Cover        share of the region with L > B/2,  B = Σ(L² - H²) / ΣL                   (E168)
//   B is the mean luminance weighted by luminance. Even light covers 1; patches on black cover
//   their share of the area.
//
// All are measured on blocks of b × b px. b is the smallest power of two that brings the noise to
// 20 % of the local mean and the texture to four of its errors. If no blocks do, the texture is of
// the blocks with the smallest error. So a noisy frame shows less texture, not more. If the largest
// blocks, eight across a cell, still have more than 50 % of noise, nothing is reported.
// E166 to E168 are our own.
#pragma once

#include "judge/region_image.h"

namespace dapple {

struct Pattern {
    Measure texture_stops;
    Measure patch_px;
    Measure patch_cm;  // not known also if the pixel's size is not known
    Measure cover;
    int block_px = 0;  // b; 0: nothing measured
};

// Why a region has no texture that is only a few pixels here and there.
inline const std::string kTooFewPixels = "too few pixels away from edges: no cell of 16 px has 36";

Pattern measure_pattern(const RegionImage& region);

}  // namespace dapple
