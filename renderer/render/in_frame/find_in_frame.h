// Finds the things that should not be in the frame (scene/in_frame.h). Traces one ray for each
// pixel and no light.
#pragma once

#include "geometry/world.h"
#include "scene/in_frame.h"
#include "scene/scene.h"

namespace dapple {

InFrame find_in_frame(const Scene& scene, const World& world);

// The same things in a frame of another size, with their pixels and boxes rounded; without a mask.
void rescale(InFrame& frame, int width, int height);

}  // namespace dapple
