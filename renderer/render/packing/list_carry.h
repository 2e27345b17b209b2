// Everything to carry into the room, counted, and how much of it the user's kit has.
#pragma once

#include <vector>

#include "render/packing/find_cables.h"
#include "scene/day_sheet.h"
#include "scene/gear.h"

namespace dapple {

std::vector<CarryItem> list_carry(const Scene& scene,
                                  const DaySheet& sheet,
                                  const std::vector<CableRun>& cables,
                                  const std::vector<Gear>& gear);

}  // namespace dapple
