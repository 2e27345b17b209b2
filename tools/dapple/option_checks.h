// What may follow an option, with messages that read like those about set files.
#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>
#include <string>

#include "render/render_frame.h"

namespace dapple {

// A whole number, bounds included.
CLI::Validator whole_number(uint64_t low, uint64_t high);

// A finite number above 0.
CLI::Validator number_above_zero();

// The transport that an option names, already checked.
Transport transport_named(const std::string& name);

}  // namespace dapple
