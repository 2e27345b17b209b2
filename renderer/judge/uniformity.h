// How evenly a region is lit.
//
//   U0 = min / mean of cell means (EN 12464-1)                                            (E165)
// Cells are squares of a sixteenth of the region's longer side, at least 8 px, so that the darkest
// cell is not dark by noise. Cells less than half inside the region are left out.
#pragma once

#include "judge/region_image.h"

namespace dapple {

// Not known if fewer than four cells are in the region, or if it is unlit. The error is the noise
// of the darkest cell alone, taken from all cells as noise whose variance grows with the light.
Measure measure_uniformity(const RegionImage& region);

}  // namespace dapple
