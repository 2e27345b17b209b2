// The lines and words of small text files of numbers: spectra and photometric files.
//
// Lines end in \n, \r\n or \r; a byte order mark is skipped. Bytes above 127 are in an unknown code
// page and are kept as they are.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/problems.h"
#include "set/text_file.h"

namespace dapple {

struct TextLines {
    TextFile file;                        // the memory that the lines point into
    std::vector<std::string_view> lines;  // line 1 is lines[0]

    int count() const { return static_cast<int>(lines.size()); }
    std::string_view line(int number) const { return lines[static_cast<size_t>(number - 1)]; }
};

// Returns false, with a problem, if the file cannot be read as text or has more than 16 MB.
bool read_text_lines(const std::string& path, Problems& problems, TextLines& text);
// The lines point into `text`.
std::vector<std::string_view> split_lines(std::string_view text);

// The text without blanks at its ends.
std::string_view trimmed(std::string_view text);
// The words between any of the `separators`; empty words are left out.
std::vector<std::string_view> split_words(std::string_view line, std::string_view separators);

// Returns true if the whole word is a finite number. With `decimal_comma` the decimals may also
// follow a comma.
bool parse_number(std::string_view word, double& value, bool decimal_comma = false);

}  // namespace dapple
