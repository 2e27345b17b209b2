// Rectangles on the walls of a box room, as a tape gives them: windows and doors.
#pragma once

#include "scene/room/find_rectangle.h"
#include "set/set_description.h"

namespace dapple {

// `along` in the wall is the room's own x (wall_back, wall_front) or z (wall_left, wall_right), 0
// in the middle; up is from the floor. `off` is how far it lies in front of the wall, m. A problem,
// and a rectangle that can be used, where the room is no box or the wall is too small.
Rectangle place_on_wall(const WallDescription& on_wall,
                        const SetDescription& set,
                        float off,
                        Problems& problems);

}  // namespace dapple
