// What `dapple check` says about a room that is a model: where it goes from and to, in metres.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "load_set.h"

namespace dapple {

// `model "room.obj": x from 0 to 6.1, y (up) from 0 to 2.59, z from -5.59 to 0: 6.1 x 5.59 m and
// 2.59 m high`; "" for a room that is no model.
std::string room_line(const LoadedSet& set);

// {low, high} in metres; null for a room that is no model.
nlohmann::json room_json(const LoadedSet& set);

}  // namespace dapple
