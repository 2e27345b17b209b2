// What differs between two texts of a set, as far as it matters to the frames of a drag.
#pragma once

#include <optional>
#include <vector>

#include "set/set_outline.h"

namespace dapple {

struct TextChanges {
    bool are_there = false;
    // Only where things stand, how they are turned, how large lamps are and what they send out:
    // surfaces, the lens and the list of things are the same.
    bool only_places = true;
    // All of it belongs to this fixture, or to cloth that is clipped to it, and nothing else in the
    // set names the fixture: a number among the fixtures of the set.
    std::optional<size_t> fixture;
};

TextChanges changes_between(const std::vector<OutlineTable>& before,
                            const std::vector<OutlineTable>& after);

}  // namespace dapple
