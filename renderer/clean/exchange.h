#pragma once

#include <vector>

#include "clean/link_pixels.h"

namespace dapple {

// For each pixel a0 + the weights of all its links.
Plane sum_weights(const std::vector<Links>& links);

// `light` divided by `reflectance` is exchanged. Σ reflectance · light stays.
void exchange_light(const std::vector<Links>& links,
                    const Plane& weight_sums,
                    const Plane& reflectance,
                    Plane& light);

}  // namespace dapple
