// A kit plan as JSON, and as tables to read and print.
#pragma once

#include <string>

#include "scene/packing_list.h"

namespace dapple {

std::string plan_json(const PackingList& plan);
std::string plan_text(const PackingList& plan);

}  // namespace dapple
