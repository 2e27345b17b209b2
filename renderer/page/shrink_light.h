// A smaller picture of light. Private to this folder.
#pragma once

#include <vector>

#include "math/vec.h"

namespace dapple {

// Means over squares of `shrink` pixels; those that do not fill a square are left out.
std::vector<Rgb> shrink_light(const std::vector<Rgb>& light, int width, int height, int shrink);

}  // namespace dapple
