// The set's kit as a list: for each fixture its place, the things on its axis, its light and its
// power; then the circuits and the cautions.
#pragma once

#include "geometry/world.h"
#include "scene/packing_list.h"

namespace dapple {

PackingList make_packing_list(const Scene& scene, const World& world);

}  // namespace dapple
