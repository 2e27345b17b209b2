// The set's kit as a list: where each fixture stands, what it meets, what it gives and draws, and
// what to take care of.
#pragma once

#include "geometry/world.h"
#include "scene/packing_list.h"

namespace dapple {

PackingList make_packing_list(const Scene& scene, const World& world);

}  // namespace dapple
