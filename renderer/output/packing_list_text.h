// The packing list of `dapple plan` as a JSON file, and as tables to read and print.
#pragma once

#include <string>

#include "scene/plan.h"

namespace dapple {

std::string packing_list_json_text(const Plan& list);
std::string packing_list_table_text(const Plan& list);

}  // namespace dapple
