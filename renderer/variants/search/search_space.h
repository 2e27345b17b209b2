// What a search may change about one thing of a set, as coordinates from 0 to 1.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "set/change_set.h"

namespace dapple {

using Metres3 = std::array<double, 3>;

// Where the thing may stand. A box, of which sides without length do not vary, or the straight line
// between its two corners.
struct PlaceBounds {
    Metres3 from{};
    Metres3 to{};
    bool is_line = false;
};

// Another number of the thing that varies.
struct KeyBounds {
    std::string key;  // "turn_deg"
    double from = 0;
    double to = 0;
};

struct SearchSpace {
    std::string address;  // of the thing: "glass.ribbed jar"
    std::optional<PlaceBounds> place;
    std::vector<KeyBounds> keys;

    size_t dimensions() const;

    // The values at `u`, one coordinate for each dimension. Lengths are rounded to a millimetre,
    // and other numbers to about a thousandth of their range.
    std::vector<SetChange> changes_at(const std::vector<double>& u) const;
};

}  // namespace dapple
