// The order in which the light walks of a pass are traced.
//
// Walks that leave the lamp in nearly the same direction meet the same triangles of the glass and
// end near each other in the frame. If they follow each other, this memory is still in the cache.
// The order does not change the walks, because each walk depends only on its index.
#pragma once

#include <cstdint>
#include <vector>

#include "transport/light_walk.h"

namespace dapple {

// The indices 0 … walks - 1, sorted by direction.
std::vector<int> order_by_direction(const SobolOwen4d& starts, int walks);

}  // namespace dapple
