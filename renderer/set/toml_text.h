// The text of a TOML file that a user names.
#pragma once

#include <string>

namespace dapple {

// Throws FileError.
std::string read_text(const std::string& path);

}  // namespace dapple
