// Light that no neighbourhood can take without showing it.
#pragma once

#include "clean/plane.h"

namespace dapple {

// The share of each pixel's light that is left where it is. The rest is cleaned.
Plane hold_back(const Plane& light, float most);

}  // namespace dapple
