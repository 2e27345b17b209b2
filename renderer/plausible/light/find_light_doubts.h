// Doubts about the exposure (find_exposure_doubts.h), and regions and meters that no light reaches
// or that the lens does not see. The light is estimated (quick_light.h), so these are guesses; a
// region that no pixel shows is not.
#pragma once

#include "plausible/light/quick_light.h"
#include "plausible/light/seen_frame.h"

namespace dapple {

Doubts find_light_doubts(const StagedSet& set, const SeenFrame& frame, const QuickLight& light);

}  // namespace dapple
