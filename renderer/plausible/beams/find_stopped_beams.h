// Beams that something stops before the glass, the cloth, the figure or the region that they are
// aimed at. That the axis is stopped is exact; what it is aimed at is taken from its aim: what the
// aim is in or near, or the glass or cloth on the axis.
#pragma once

#include "plausible/bodies/movers.h"

namespace dapple {

Doubts find_stopped_beams(const StagedSet& set, const std::vector<Mover>& movers);

}  // namespace dapple
