// The text of a set file or a kit file.
#pragma once

#include <string>
#include <string_view>

namespace dapple {

// Throws FileError.
std::string read_toml_text(const std::string& path);

// What the TOML reader says about a mistake in the text, with a hint for values that are written
// as people say them but without quotation marks: 1/60, 35mm, 1,5.
std::string toml_mistake(std::string_view description);

}  // namespace dapple
