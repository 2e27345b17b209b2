// Bodies that cut into each other: glass in a column or a stand, a fixture or a figure in a wall.
// Exact up to the cage (body_cage.h); touching is not cutting (movers.h).
#pragma once

#include "plausible/bodies/movers.h"

namespace dapple {

Doubts find_cuts(const StagedSet& set, const std::vector<Mover>& movers);

}  // namespace dapple
