// Builds the lens of [camera].
#pragma once

#include "scene/scene.h"
#include "set/set_description.h"

namespace dapple {

CameraLens build_lens(const CameraDescription& description, Problems& problems);

}  // namespace dapple
