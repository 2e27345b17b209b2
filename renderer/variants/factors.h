// The knobs of a night as factors of a plan of experiments: which variants share a value.
#pragma once

#include <string>
#include <vector>

#include "variants/choose_variants.h"

namespace dapple {

// One knob, or several that change together in every variant and so cannot be told apart.
struct Factor {
    std::vector<std::string> addresses;  // of all that changes with it
    std::vector<std::string> knobs;      // the same in words
    bool has_several_knobs = false;
    std::vector<std::string> levels;  // its different values as words, in the order of the file
    std::vector<size_t> level;        // by variant
    // If the factor counts as a straight line: its number in each variant; `levels` are then the
    // lowest and the highest value. Empty: each level counts alone.
    std::vector<double> at;

    bool is_line() const { return !at.empty(); }
};

// Knobs that do not vary are left out. In a grid every level counts alone. In a list or in samples
// a range counts as a straight line, and so do numbers that are more than half as many as the
// variants.
std::vector<Factor> make_factors(const VariantsFile& file, const std::vector<Variant>& variants);

}  // namespace dapple
