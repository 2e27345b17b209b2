// What stands behind the equals sign of a target. Private to this folder.
#pragma once

#include <optional>
#include <string>

#include "rebalance/target.h"

namespace dapple {

struct WantedValue {
    TargetUnit unit = TargetUnit::kRatio;
    double value = 0;        // an f-number, stops, lx or a ratio
    bool is_ratio = false;   // written as one, "4:1"
    bool is_number = false;  // a number alone: an f-number or a ratio
};

// "f/4", "f4", "f/5.6 + 3/10", "-1 stop", "1/3 stop", "800 lx", "4:1", "4 to 1", "5.6". Nothing if
// it is none of these.
std::optional<WantedValue> read_target_value(const std::string& text);

// Without blanks at both ends.
std::string without_blanks(const std::string& text);

}  // namespace dapple
