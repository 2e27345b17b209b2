// Points that a set file gives by name: `aim = "figure"`, `facing = "camera"`, `aim = "back wall"`,
// a meter's `position = "figure face"` and the distance `focus_m = "figure face"`.
//
// The place of a thing is the middle of its body: a figure's chest ("NAME face" is its face), the
// camera's and a meter's position, a fixture's source, half the height of glass and columns, the
// middle of a board, a door or a window on a wall. The place of a surface of the room, or of a
// region that names one, is the centre of its area. Things come before surfaces, and surfaces
// before regions, where several have one name.
//
// A meter is held before the thing, on the side that it faces: 0.15 heights of the figure before
// the middle of a head and 0.24 before that of a chest, level; 2 cm before a surface or a board.
// The focus is on the near side of a figure: 0.06 and 0.066 heights before those points.
#pragma once

#include "base/problems.h"
#include "scene/scene.h"
#include "set/set_description.h"

namespace dapple {

// Replaces the names of all points by places. A name that nothing has is a problem. The scene has
// its room and its glass already.
void resolve_named_points(SetDescription& set, const Scene& scene, Problems& problems);

}  // namespace dapple
