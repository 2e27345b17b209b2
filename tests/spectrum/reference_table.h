// Published tables in ../shared/reference/data beside the checkout. Tests that need one report it
// and pass without it where the folder is missing.
#pragma once

#include <doctest/doctest.h>

#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

namespace dapple {

// Columns by name; empty where the file is missing. Lines that start with # are skipped.
using ReferenceTable = std::map<std::string, std::vector<double>>;

inline ReferenceTable read_reference_table(const std::string& name) {
    ReferenceTable table;
    std::ifstream file(std::string(DAPPLE_SOURCE_DIR) + "/../shared/reference/data/" + name);
    std::vector<std::string> header;
    for (std::string line; std::getline(file, line);) {
        if (line.empty() || line[0] == '#') continue;
        std::istringstream cells(line);
        const bool is_header = header.empty();
        size_t column = 0;
        for (std::string cell; std::getline(cells, cell, ','); ++column) {
            if (is_header) {
                header.push_back(cell);
            } else {
                table[header.at(column)].push_back(std::stod(cell));
            }
        }
    }
    if (table.empty()) MESSAGE("skipped: no reference table ", name);
    return table;
}

}  // namespace dapple
