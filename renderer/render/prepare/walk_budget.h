// The number of light walks of each fixture in one pass (E68).
//
// Light walks are worth their time where a beam meets glass, because no other technique finds the
// light behind it well. Seven tenths of the walks are divided among the fixtures by the flux that
// enters glass, the rest by the whole flux. A fixed set of rays measures the flux in glass, so
// every process computes the same numbers. If no beam meets glass, only a small share of the walks
// is used, because camera walks find nearly all of the light.
#pragma once

#include <vector>

#include "fixtures/emitter.h"
#include "geometry/world.h"

namespace dapple {

// `is_quick`: with fewer rays, for frames of a drag.
std::vector<int> make_walk_budget(const std::vector<Emitter>& emitters,
                                  const World& world,
                                  int64_t walks,
                                  double share_without_glass,
                                  bool is_quick = false);

}  // namespace dapple
