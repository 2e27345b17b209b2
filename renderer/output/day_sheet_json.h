// The day sheet as JSON: the packing list's keys, and carry, places, targets, cables and
// build_order. `targets` is null if the meters were not read.
#pragma once

#include <string>

#include "scene/day_sheet.h"

namespace dapple {

// `set` is the set file that it was made from; "": not known.
std::string day_sheet_json_text(const DaySheet& sheet, const std::string& set = "");

}  // namespace dapple
