// Pixels at the rims of surfaces.
#pragma once

#include <cstddef>

#include "film/seen_points.h"

namespace dapple {

// The pixel of the 3 × 3 around (x, y) that sees the surface of `seen` best, row by row; the middle
// one if none does.
size_t best_match(const SeenPoints& points, int x, int y, const SeenPoint& seen);

// Whether one of the 3 × 3 pixels sees another surface than (x, y).
bool is_at_rim(const SeenPoints& points, int x, int y);

// The frame with `step` times `step` pixels in one; `step` is odd. A pixel sees what its middle one
// saw. At rims the shares are the numbers of pixels. What no pixel around sees in its middle counts
// as the pixel's own surface, whose colour is the mean over all that count as it.
SeenPoints make_coarser(const SeenPoints& fine, int step);

}  // namespace dapple
