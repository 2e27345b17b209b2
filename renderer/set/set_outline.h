// What a set file says, table by table, in the file's own words and order. For showing and editing
// a set; what the values mean is read_set()'s business.
#pragma once

#include <string>
#include <vector>

namespace dapple {

struct OutlineKey {
    std::string key;
    std::string json;  // its value as JSON
};

struct OutlineTable {
    std::string kind;     // "camera", "fixture"
    std::string name;     // "" if it has none
    std::string address;  // for change_set(): by its name, or else by its place in the file
    int line = 0;
    std::vector<OutlineKey> keys;  // in the file's order
};

// `text` must be valid TOML.
std::vector<OutlineTable> outline_of(const std::string& text);

}  // namespace dapple
