// The parts of an address in a set, such as "fixture.key.dimmer" or "glass.#2.turn_deg".
#pragma once

#include <toml++/toml.h>

#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace dapple {

std::vector<std::string> split_at_dots(const std::string& text);

// "#2.dimmer": the place in the file, from 1, and what follows it. Nothing without a "#".
std::optional<std::pair<size_t, std::string>> counted_name(const std::string& rest);

// The kind of the tables of which one has this name, "" if none has: "fixture" for "key".
std::string kind_of_thing(const toml::table& root, const std::string& name);

}  // namespace dapple
