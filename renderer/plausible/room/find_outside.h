// Things that are outside the room, or reach through its walls, its floor or its ceiling. Exact in
// a room of size_m; in a model a guess.
//
// (Positions of the camera, of fixtures, figures and meters outside a room of size_m are refused;
// scene/room/check_in_room.cpp.)
#pragma once

#include "plausible/bodies/movers.h"

namespace dapple {

Doubts find_outside(const StagedSet& set, const std::vector<Mover>& movers);

}  // namespace dapple
