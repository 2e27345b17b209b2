// Finds lamps that the lens sees by way of smooth surfaces.
#pragma once

#include "glare/lens_lights.h"

namespace dapple {

// Adds them to `lights`, in an order that depends on the scene alone.
void find_images(const Setup& setup, const SmoothWays& ways, std::vector<LensLight>& lights);

}  // namespace dapple
