// The packing list of `dapple plan` as tables to read and print, with all that is to be carried and
// what the light meter must read.
#pragma once

#include <string>

#include "scene/day_sheet.h"

namespace dapple {

std::string packing_list_table_text(const DaySheet& sheet);

}  // namespace dapple
