// The packing list of `dapple plan` as tables to read and print.
#pragma once

#include <string>

#include "scene/packing_list.h"

namespace dapple {

std::string packing_list_table_text(const PackingList& list);

}  // namespace dapple
