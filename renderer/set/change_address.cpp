#include "set/change_address.h"

#include <algorithm>
#include <sstream>

namespace dapple {

std::vector<std::string> split_at_dots(const std::string& text) {
    std::vector<std::string> parts;
    std::istringstream stream(text);
    for (std::string part; std::getline(stream, part, '.');) parts.push_back(part);
    return parts;
}

std::optional<std::pair<size_t, std::string>> counted_name(const std::string& rest) {
    size_t end = 1;
    while (end < rest.size() && rest[end] >= '0' && rest[end] <= '9' && end < 7) ++end;
    const bool ends_well = end == rest.size() || rest[end] == '.';
    if (rest.empty() || rest[0] != '#' || end == 1 || !ends_well) return std::nullopt;
    return std::pair(std::stoul(rest.substr(1, end - 1)),
                     rest.substr(std::min(end + 1, rest.size())));
}

std::string kind_of_thing(const toml::table& root, const std::string& name) {
    for (const auto& [kind, node] : root) {
        if (!node.is_array_of_tables()) continue;
        for (const toml::node& element : *node.as_array()) {
            const auto its = (*element.as_table())["name"].value<std::string>();
            if (its == name) return std::string(kind.str());
        }
    }
    return "";
}

}  // namespace dapple
