// Where everything stands, how it is set, and what the drawings show of it.
#pragma once

#include "geometry/world.h"
#include "scene/day_sheet.h"

namespace dapple {

// Camera, fixtures, glass, cloths, flags, boards, figures and meters, in this order. `list` has the
// fixtures; `sheet` must already have its room.
std::vector<PlacedThing> find_places(const Scene& scene, const DaySheet& sheet);

}  // namespace dapple
