// Checks the gear of the kit.
#pragma once

#include <vector>

#include "base/problems.h"
#include "scene/gear.h"
#include "set/read_gear.h"
#include "set/set_description.h"

namespace dapple {

std::vector<Gear> build_gear(const std::vector<GearDescription>& descriptions, Problems& problems);

// Adds the columns of which the set says whether they are brought: 1 of those that are, 0 of those
// that are part of the room.
void add_columns(const std::vector<ColumnDescription>& columns, std::vector<Gear>& gear);

}  // namespace dapple
