// Beams that something stops before the glass, the cloth, the figure or the region that they are
// aimed at. That the axis is stopped is exact; what it is aimed at is taken from its aim: what the
// aim is in or near, or the glass or cloth on the axis. Where a flag or a board stops the beam, the
// doubt is about the flag, and says where the flag would leave the beam free.
#pragma once

#include "plausible/bodies/movers.h"
#include "plausible/light/quick_light.h"

namespace dapple {

Doubts find_stopped_beams(const StagedSet& set,
                          const std::vector<Mover>& movers,
                          const QuickLight& light);

}  // namespace dapple
