// Rectangles on the walls of a box room: windows and doors.
#pragma once

#include "scene/room/find_rectangle.h"
#include "set/set_description.h"

namespace dapple {

// centre_m is along the wall, which is along the room's x (wall_back, wall_front) or z (wall_left,
// wall_right) with 0 in the middle, and up from the floor. `off` is the distance from the wall, m.
// If the room is not a box or the wall is too small, adds a problem and returns some rectangle.
Rectangle place_on_wall(const WallDescription& on_wall,
                        const SetDescription& set,
                        float off,
                        Problems& problems);

}  // namespace dapple
