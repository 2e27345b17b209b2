// Checks the gear of the kit.
#pragma once

#include <vector>

#include "base/problems.h"
#include "scene/gear.h"
#include "set/read_gear.h"

namespace dapple {

std::vector<Gear> build_gear(const std::vector<GearDescription>& descriptions, Problems& problems);

}  // namespace dapple
