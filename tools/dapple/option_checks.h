// Checks of the values of options. Their messages read like those about set files.
#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>

namespace dapple {

// A whole number from `low` to `high`, both included.
CLI::Validator whole_number(uint64_t low, uint64_t high);

// A finite number above 0.
CLI::Validator number_above_zero();

}  // namespace dapple
