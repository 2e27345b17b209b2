// Cautions for the set, in general words. This is no safety calculation: the maker's instructions,
// local codes and licensed practice come first.
#pragma once

#include "geometry/world.h"
#include "scene/packing_list.h"

namespace dapple {

// The most urgent first. `list` must already hold the fixtures and circuits.
std::vector<Caution> find_cautions(const Scene& scene, const PackingList& list);

// What a set with haze asks for: alarms, breathing, slippery floors. Empty without haze.
std::vector<Caution> find_haze_cautions(const Scene& scene);

}  // namespace dapple
