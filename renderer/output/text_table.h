// Tables for a terminal; for this folder only.
#pragma once

#include <cstdio>
#include <string>
#include <vector>

namespace dapple {

template <class... Values>
std::string formatted(const char* format, Values... values) {
    char text[256];
    std::snprintf(text, sizeof text, format, values...);
    return text;
}

// Columns that a terminal shows, for UTF-8.
size_t columns(const std::string& text);
std::string padded(const std::string& text, size_t width);

// Rows of cells, the first row a heading; columns as wide as they must be, two blanks between.
std::string table_text(const std::vector<std::vector<std::string>>& rows);

}  // namespace dapple
