// A file of the user's in memory, and its words as messages print them.
#pragma once

#include <memory>
#include <string>
#include <string_view>

#include "base/problems.h"

namespace dapple {

struct TextFile {
    std::unique_ptr<char[]> bytes;
    size_t size = 0;
    std::string_view text() const { return {bytes.get(), size}; }
};

// Returns false, with a problem, if the file cannot be read as text: it is missing, a folder, too
// large or binary.
bool read_text_file(const std::string& path, Problems& problems, TextFile& file);

// The same for a file that need not be text.
bool read_whole_file(const std::string& path, Problems& problems, TextFile& file);

// A word of the file in quotes for a message: without control characters, cut after 200 bytes.
std::string in_quotes(std::string_view word);

std::string lower_case(std::string_view text);  // ASCII

}  // namespace dapple
