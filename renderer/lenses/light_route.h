// The surfaces that light meets on its way through a lens, and what happens at each.
//
// The image is made of light that every surface refracts. A ghost is made by a pair of reflections:
// with i < j, light is refracted at the surfaces before j, reflected at j, goes back to i, is
// reflected there and goes on to the film (Hullin et al. 2011).
#pragma once

#include <utility>
#include <vector>

#include "lenses/prescription.h"

namespace dapple {

struct RouteStep {
    size_t surface = 0;
    bool reflects = false;
    bool forwards = true;  // how the light arrives
};

struct LightRoute {
    std::vector<RouteStep> steps;
    int stop_crossings = 0;
};

LightRoute image_route(const Prescription& lens);
LightRoute ghost_route(const Prescription& lens, size_t i, size_t j);

// Every pair of refracting surfaces (i, j), i < j.
std::vector<std::pair<size_t, size_t>> ghost_pairs(const Prescription& lens);

}  // namespace dapple
