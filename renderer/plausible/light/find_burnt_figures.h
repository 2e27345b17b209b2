// Figures and faces that are burnt out. The light is estimated (quick_light.h), so these are
// guesses.
//
// A face is burnt out if half of it is more than 0.7 stops above white, by all light that is
// estimated and where no glass is before a lamp: glass may bend the light away. A face is also
// burnt out if a fifth of it is above white by the light that comes straight from lamps past no
// glass, which is known better; so is what the lens sees of a figure if a fifth of it is half a
// stop above white, since a white dress may be a little. So small hot spots, and edges that a lamp
// from behind draws, do not count. A dark face may be a silhouette, and is not doubted.
#pragma once

#include "plausible/light/quick_light.h"
#include "plausible/light/seen_frame.h"

namespace dapple {

// One at most. For a set that is not doubted otherwise: a lamp or a glass that has to move changes
// the light on the figure.
Doubts find_burnt_figures(const StagedSet& set, const SeenFrame& frame, const QuickLight& light);

}  // namespace dapple
