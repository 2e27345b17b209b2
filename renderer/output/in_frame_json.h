// The things in the frame as a part of other JSON files. Private to this folder.
#pragma once

#include <nlohmann/json.hpp>

#include "scene/in_frame.h"

namespace dapple {

// null if nothing was looked for.
nlohmann::ordered_json in_frame_json(const InFrame& frame);
// The list again, without its mask. Throws what the library throws, or std::invalid_argument.
InFrame parse_in_frame(const nlohmann::ordered_json& json, int width, int height);

}  // namespace dapple
