// How many light walks each fixture gets in one pass (E52).
//
// Light walks are worth their time where a beam meets glass: nothing else finds well what comes out
// of it. Nine tenths of the walks are shared by the flux that enters glass, found with a fixed set
// of rays so that every process comes to the same numbers; the rest by flux alone. A set whose
// beams meet none spends a small share of the walks: there they do little that others do not.
#pragma once

#include <vector>

#include "fixtures/emitter.h"
#include "geometry/world.h"

namespace dapple {

std::vector<int> make_walk_budget(const std::vector<Emitter>& emitters,
                                  const World& world,
                                  int64_t walks,
                                  double share_without_glass);

}  // namespace dapple
