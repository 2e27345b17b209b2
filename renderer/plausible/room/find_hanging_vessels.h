// Jars, bottles and other vessels that hang in the air although they are no glass for a lamp.
//
// Glass before a fixture hangs on a stand on purpose. So a vessel is doubted only if the lens sees
// it, nothing is under or beside it that could hold it, and it is not where a fixture's beam has at
// least half of its peak, up to half a metre behind what it is aimed at (of panels and bare lamps:
// within 1.5 m).
#pragma once

#include "plausible/bodies/movers.h"
#include "plausible/light/quick_light.h"

namespace dapple {

// `over_tables`: only those above a column, which should stand on it.
Doubts find_hanging_vessels(const StagedSet& set,
                            const std::vector<Mover>& movers,
                            const QuickLight& light,
                            bool over_tables);

}  // namespace dapple
