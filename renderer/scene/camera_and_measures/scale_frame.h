// The same frame in fewer or more pixels.
#pragma once

#include "scene/scene.h"

namespace dapple {

// Scales the frame to `width` pixels across, and the rectangles of regions with it.
void scale_frame(Scene& scene, int width);

}  // namespace dapple
