// The day sheet of a set, all but its meter targets. The gear is that of the kit.
#pragma once

#include "geometry/world.h"
#include "scene/day_sheet.h"
#include "scene/gear.h"

namespace dapple {

DaySheet make_day_sheet(const Scene& scene, const World& world, const std::vector<Gear>& gear);

}  // namespace dapple
