// Frames that are black or burnt out, and regions and meters that no light reaches or that the lens
// does not see. The light is estimated (quick_light.h), so these are guesses; a region that no
// pixel shows is not.
//
// A frame is too dark if its brightest hundredth is more than 6 stops below white, or more than 4
// if no fixture lights anything in it directly; it is burnt out if its median is more than 3.5
// stops above white, which is 6 above mid grey.
#pragma once

#include "plausible/light/quick_light.h"
#include "plausible/light/seen_frame.h"

namespace dapple {

Doubts find_light_doubts(const StagedSet& set, const SeenFrame& frame, const QuickLight& light);

}  // namespace dapple
