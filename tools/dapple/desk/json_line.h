// JSON as the desk sends it.
#pragma once

#include <nlohmann/json.hpp>
#include <string>

#include "math/vec.h"

namespace dapple {

// On one line. Bytes of the user's names that are not UTF-8 are replaced.
inline std::string line_of(const nlohmann::ordered_json& json) {
    return json.dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace);
}

inline nlohmann::ordered_json point_json(const Vec3& p) {
    return {p.x, p.y, p.z};
}

}  // namespace dapple
