// In which order the light walks of a pass are traced.
//
// Walks that leave the lamp in nearly the same direction meet the same triangles of the glass and
// end near each other in the frame: one after the other they find all of it in the cache. The
// order says nothing about the walks themselves, which are known by their index.
#pragma once

#include <cstdint>
#include <vector>

#include "transport/light_walk.h"

namespace dapple {

// Indices 0 … walks - 1, by direction.
std::vector<int> order_by_direction(const SobolOwen4d& starts, int walks);

}  // namespace dapple
