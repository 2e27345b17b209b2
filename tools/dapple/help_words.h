// Words of the help that are the same in all commands: what an option's value is called, which
// options are advanced, and examples. Help, completion and the manual all use them.
#pragma once

#include <CLI/CLI.hpp>

namespace dapple {

// Call it once, after all commands have been added.
void add_help_words(CLI::App& app);

}  // namespace dapple
