// A camera that cannot show what the set is for: too near to a wall, turned away from the figure,
// focused beyond everything, open for a minute, or with a lens that does not exist.
#pragma once

#include "plausible/light/seen_frame.h"

namespace dapple {

Doubts find_camera_doubts(const StagedSet& set, const SeenFrame& frame);

}  // namespace dapple
