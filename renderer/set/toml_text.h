// The text of a set file or a kit file.
#pragma once

#include <string>
#include <string_view>

namespace dapple {

// Throws FileError.
std::string read_toml_text(const std::string& path);

// What the TOML reader says about a mistake in a line of the text (from 1), with a hint for values
// that are written as people say them but without quotation marks: 1/60, 35mm, 1,5; and for the
// quotation marks of word processors.
std::string toml_mistake(std::string_view description, std::string_view text, size_t line);

}  // namespace dapple
