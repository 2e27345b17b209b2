// Everything to carry into the room, counted.
#pragma once

#include <vector>

#include "render/packing/find_cables.h"
#include "scene/day_sheet.h"

namespace dapple {

std::vector<CarryItem> list_carry(const Scene& scene,
                                  const DaySheet& sheet,
                                  const std::vector<CableRun>& cables);

}  // namespace dapple
