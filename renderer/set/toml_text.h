// The text of a set file or a kit file.
#pragma once

#include <string>

namespace dapple {

// Throws FileError.
std::string read_toml_text(const std::string& path);

}  // namespace dapple
