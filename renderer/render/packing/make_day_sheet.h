// The day sheet of a set, all but its meter targets.
#pragma once

#include "geometry/world.h"
#include "scene/day_sheet.h"

namespace dapple {

DaySheet make_day_sheet(const Scene& scene, const World& world);

}  // namespace dapple
