// Finds the things that should not be in the frame (scene/in_frame.h). Traces one ray for each
// pixel and no light.
#pragma once

#include "geometry/world.h"
#include "scene/in_frame.h"
#include "scene/scene.h"

namespace dapple {

InFrame find_in_frame(const Scene& scene, const World& world);

}  // namespace dapple
