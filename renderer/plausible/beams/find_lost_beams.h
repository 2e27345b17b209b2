// Beams that meet nothing, that their own barn doors keep in, or that pass the figure that their
// fixture's name says they are for; and cloths that are edge-on to the beam that goes through them.
#pragma once

#include "plausible/bodies/movers.h"
#include "plausible/light/quick_light.h"

namespace dapple {

Doubts find_lost_beams(const StagedSet& set,
                       const std::vector<Mover>& movers,
                       const QuickLight& light);

// A cloth whose middle is on the axis of a fixture, within 10° of edge-on, and that gets less from
// all lamps than 0.3 of what it would get from that fixture if it faced it.
Doubts find_edge_on_cloths(const StagedSet& set, const QuickLight& light);

}  // namespace dapple
