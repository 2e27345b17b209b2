// A value and a table as a set file has them.
//
// Every value has its place in the file and the name that messages use. A missing value has the
// place of its table; its default is in scene/defaults.h.
#pragma once

#include <array>
#include <string>

#include "base/problems.h"

namespace dapple {

using Pair = std::array<double, 2>;
using Triple = std::array<double, 3>;
using Quad = std::array<double, 4>;

template <typename T>
struct Field {
    T value{};
    Place place;
    std::string key;       // for messages: `fixture "net": beam_angle_deg`
    bool written = false;  // the key is in the file, perhaps misspelt
    bool given = false;    // the key is in the file and `value` has its value
    std::string kit_file;  // the kit file that the value is from; "": the set file
};

// A point, or the name of a thing. scene/named_places.h replaces the name by the thing's place.
struct PointField : Field<Triple> {
    std::string thing;  // "": the point is written as numbers, or not at all
};

// What all tables have. Messages name the table by `label`: `fixture "net"`, `room`.
struct TableDescription {
    bool given = false;
    Place place;
    std::string label;
    std::string kit;  // the kit entry that it starts from; "": none
};

}  // namespace dapple
