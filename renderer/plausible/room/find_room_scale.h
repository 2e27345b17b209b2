// Rooms whose numbers look like centimetres, millimetres, inches or feet. Guesses.
//
// A room counts as too large if it is higher than 20 m and in one of these units is a room as one
// hires: 1.8 to 20 m high and 2 to 100 m along both sides. A model also must have no surface but a
// floor within 8 m of the camera; or, with a figure in the set, a ceiling more than 40 m above the
// camera.
#pragma once

#include "plausible/staged_set.h"

namespace dapple {

Doubts find_room_scale(const StagedSet& set);

}  // namespace dapple
