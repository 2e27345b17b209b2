// Variants that differ only in light can share one film: the others are made of it by rebalancing.
#pragma once

#include <string>
#include <vector>

#include "variants/choose_variants.h"

namespace dapple {

// Whether a change is one that rebalancing can make: a fixture's dimmer, colour or gel (its
// numbers or its trade name).
bool is_light_only(const SetChange& change);

// For each variant the first one of the same set but for its light, with no dimmer at 0; for that
// one itself, and where there is none, its own index.
std::vector<size_t> film_of_each(const std::vector<Variant>& variants);

// The settings that `dapple rebalance` would be given: "moon.dimmer=0.5".
std::vector<std::string> light_settings(const Variant& variant);

}  // namespace dapple
