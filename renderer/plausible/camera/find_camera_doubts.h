// A camera that cannot show what the set is for: too near to a wall, turned away from the figure,
// focused beyond everything, open for a minute, or with a lens that does not exist.
#pragma once

#include "plausible/light/seen_frame.h"

namespace dapple {

// What the frame shows: nothing, a wall, the wrong side; and whether it is sharp.
Doubts find_view_doubts(const StagedSet& set, const SeenFrame& frame);

Doubts find_shutter_doubts(const StagedSet& set);

}  // namespace dapple
