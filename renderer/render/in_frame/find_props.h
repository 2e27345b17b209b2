// Glass that stands on a table, on the floor or on a board is a prop: it may be in the frame. Glass
// in the air hangs on a stand, for a lamp.
#pragma once

#include <vector>

#include "geometry/world.h"
#include "scene/scene.h"

namespace dapple {

// For each glass, whether it is a prop.
std::vector<bool> find_props(const Scene& scene, const World& world);

}  // namespace dapple
