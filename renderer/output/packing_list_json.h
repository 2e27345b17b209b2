// The packing list as a part of other JSON files. Private to this folder.
#pragma once

#include <nlohmann/json.hpp>

#include "scene/packing_list.h"

namespace dapple {

nlohmann::ordered_json packing_list_json(const PackingList& list);

}  // namespace dapple
