// What to take care of, in general words. No safety calculation: the maker's instructions, local
// codes and licensed practice come first.
#pragma once

#include "geometry/world.h"
#include "scene/packing_list.h"

namespace dapple {

// `plan` holds the fixtures and circuits already.
std::vector<Caution> find_cautions(const Scene& scene, const PackingList& list);

}  // namespace dapple
