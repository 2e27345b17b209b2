// Rooms and positions whose numbers look like centimetres or millimetres. Guesses.
//
// A room counts as too large if it is higher than 20 m and a hundredth or a thousandth of it is a
// room as one hires: 1.8 to 20 m high and 2 to 100 m along both sides. A model also must have no
// surface but a floor within 8 m of the camera.
#pragma once

#include "plausible/staged_set.h"

namespace dapple {

Doubts find_room_scale(const StagedSet& set);

}  // namespace dapple
