// Options that several commands share, each with its check and its help.
#pragma once

#include <CLI/CLI.hpp>
#include <cstdint>
#include <string>

#include "render/render_frame.h"

namespace dapple {

void add_set_option(CLI::App& command, std::string& set);
// --strict
void add_strict_option(CLI::App& command, bool& strict);
// --seconds and --passes
void add_limit_options(CLI::App& command, double& seconds, int& passes);
void add_threads_option(CLI::App& command, int& threads);
void add_seed_option(CLI::App& command, uint64_t& seed, const std::string& help);

// --float
void add_float_option(CLI::App& command, bool& keeps_floats);

// `help` explains the names: full, walks, camera, partition.
void add_transport_option(CLI::App& command, std::string& transport, const std::string& help);
// The transport of a name that the option has accepted.
Transport transport_named(const std::string& name);

}  // namespace dapple
