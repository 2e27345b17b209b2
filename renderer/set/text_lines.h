// Small text files of numbers (spectra, photometric files) as lines and words.
//
// Lines end in \n, \r\n or \r; a byte order mark is skipped. Bytes above 127 are whatever the
// maker's code page had and are passed on as they are.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/problems.h"
#include "set/obj/obj_text.h"

namespace dapple {

struct TextLines {
    TextFile file;                        // what the lines point into
    std::vector<std::string_view> lines;  // line 1 is lines[0]

    int count() const { return static_cast<int>(lines.size()); }
    std::string_view line(int number) const { return lines[static_cast<size_t>(number - 1)]; }
};

// False, with a problem, where the file cannot be read as text or is far too large to be of use.
bool read_text_lines(const std::string& path, Problems& problems, TextLines& text);
// Of a text in memory, which must stay there.
std::vector<std::string_view> split_lines(std::string_view text);

// Without blanks at both ends.
std::string_view trimmed(std::string_view text);
// The words between any of the `separators`; empty words are left out.
std::vector<std::string_view> split_words(std::string_view line, std::string_view separators);

// A whole word as a finite number; a point or, where `decimal_comma`, a comma before the decimals.
bool parse_number(std::string_view word, double& value, bool decimal_comma = false);

}  // namespace dapple
