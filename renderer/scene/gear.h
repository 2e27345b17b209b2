// What holds, feeds and frames the things of a set, as the kit lists it. Lengths in metres.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "math/vec.h"

namespace dapple {

struct Gear {
    std::string kind;  // stand clamp weight cable battery frame; or fixture, glass … with a count;
                       // or column: one of the set, 1 if it is brought and 0 if not
    std::string name;          // of the kit entry or the column
    std::optional<int> count;  // how many the user owns; none: typical gear, to be hired
    float reach = 0;           // of a stand: the highest that it holds a lamp
    float length = 0;          // of a cable
    Vec2 size{0};              // of a frame
};

}  // namespace dapple
