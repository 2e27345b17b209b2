// Frames that are black or burnt out. The light is estimated (quick_light.h), so these are guesses.
//
// A frame is too dark if its brightest hundredth is more than 6 stops below white, or more than 4
// if no fixture lights anything in it directly. It is burnt out if its median is more than 3.5
// stops above white, which is 6 above mid grey, or if a third of it is more than a stop above
// white. The estimate leaves out light that is scattered twice, so the picture is brighter. White
// backgrounds are burnt by less than a stop on purpose.
#pragma once

#include "plausible/light/quick_light.h"
#include "plausible/light/seen_frame.h"

namespace dapple {

// One at most.
Doubts find_exposure_doubts(const StagedSet& set, const SeenFrame& frame, const QuickLight& light);

}  // namespace dapple
