// Reads a set file (TOML) into a description, collecting every problem with file, line and column.
#pragma once

#include <string>
#include <vector>

#include "base/problems.h"
#include "set/set_description.h"

namespace dapple {

// Problems: TOML syntax, unknown keys and tables, wrong types and array lengths, numbers that are
// not finite. Throws FileError if the file cannot be read at all.
SetDescription read_set(const std::string& path, Problems& problems);

// The same for a text in memory; messages name it `path`.
SetDescription read_set_text(const std::string& text, const std::string& path, Problems& problems);

// Every key that a set file may have: "title", "fixture", "fixture.gel", "fixture.gel.stops".
std::vector<std::string> all_set_keys();

}  // namespace dapple
