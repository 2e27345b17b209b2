// What the light meter must read, as a table for a terminal. Private to this folder.
#pragma once

#include <string>

#include "scene/day_sheet.h"

namespace dapple {

// A row for each fixture alone and one for all together, a column for each meter. Where the meters
// were not read, a line says how they are; "" for a set without meters.
std::string meter_targets_text(const DaySheet& sheet);

}  // namespace dapple
