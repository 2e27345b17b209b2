// The packing list of `dapple plan` as tables to read and print, with all that is to be carried.
#pragma once

#include <string>

#include "scene/day_sheet.h"

namespace dapple {

std::string packing_list_table_text(const PackingList& list, const std::vector<CarryItem>& carry);

}  // namespace dapple
