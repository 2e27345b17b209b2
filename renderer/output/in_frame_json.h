// The things in the frame as a part of other JSON files. Private to this folder.
#pragma once

#include <nlohmann/json.hpp>

#include "scene/in_frame.h"

namespace dapple {

nlohmann::ordered_json in_frame_json(const InFrame& frame);

}  // namespace dapple
