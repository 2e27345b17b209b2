// The gear of the kit: stands, clamps and other supports, and how many the user owns of anything.
//
// A kit file may have tables [[stand]], [[clamp]], [[weight]], [[cable]], [[battery]] and
// [[frame]], and the key `count` in an entry of any kind: how many there are in the user's own kit.
#pragma once

#include <string>
#include <vector>

#include "base/problems.h"
#include "set/set_description.h"

namespace dapple {

struct GearDescription : TableDescription {
    std::string kind;  // stand clamp weight cable battery frame; or fixture, glass … with a count
    std::string name;
    Field<int64_t> count;
    Field<double> reach_m;   // of a stand
    Field<double> length_m;  // of a cable
    Field<Pair> size_m;      // of a frame
};

// The gear in the kit folders of the set file at `set_path`, the set's own first. Of several
// entries of one name the first counts.
std::vector<GearDescription> read_gear(const std::string& set_path, Problems& problems);

// Every key that a kit file has and a set file has not: "stand", "stand.reach_m".
std::vector<std::string> all_gear_keys();

}  // namespace dapple
