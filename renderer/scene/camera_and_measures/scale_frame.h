// Changes the number of pixels of the frame.
#pragma once

#include "scene/scene.h"

namespace dapple {

// Scales the frame to a width of `width` pixels, and the rectangles of regions with it.
void scale_frame(Scene& scene, int width);

}  // namespace dapple
