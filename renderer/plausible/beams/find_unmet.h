// Glass, cloths and flags that no light meets, so that they do nothing.
//
// A beam meets what is in its field and in sight of its lamp. A window's light counts for cloths
// and flags that it sees; for glass that is near the pane, and for all glass where there is no
// fixture: far from a large window glass throws no pattern. Left out, because it is done on
// purpose: glass that stands on something in the frame, cloth in the frame (a backdrop), and flags
// in the frame, near a figure (black takes light away from it), near the lens, between the lens and
// a lamp, or in the light that lit glass throws about.
#pragma once

#include "plausible/bodies/movers.h"
#include "plausible/light/quick_light.h"

namespace dapple {

Doubts find_unmet(const StagedSet& set, const std::vector<Mover>& movers, const QuickLight& light);

}  // namespace dapple
