// The day sheet as JSON: the packing list's keys, and carry, places, targets, cables and
// build_order. `targets` is null if the meters were not read.
#pragma once

#include <string>

#include "scene/day_sheet.h"

namespace dapple {

std::string day_sheet_json_text(const DaySheet& sheet);

}  // namespace dapple
