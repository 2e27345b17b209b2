// Tables for a terminal. Private to this folder.
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

// Columns that a UTF-8 text takes on a terminal.
size_t columns(const std::string& text);
std::string padded(const std::string& text, size_t width);

// A table of rows of cells, the first row being the heading. Columns are as wide as their widest
// cell, with two blanks between them.
std::string table_text(const std::vector<std::vector<std::string>>& rows);

}  // namespace dapple
