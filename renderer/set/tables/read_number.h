// One number of a set file, written as a number or as people write it: 0.5, "50%", "1.2 m".
#pragma once

#include <toml++/toml.h>

#include <optional>
#include <string>

namespace dapple {

// "a text", "a list": what a value is.
std::string type_in_words(const toml::node& node);

struct ReadNumber {
    std::optional<double> value;  // in the key's unit, finite
    std::string problem;          // why there is no value
};

ReadNumber read_number(const toml::node& node, const std::string& key);

}  // namespace dapple
