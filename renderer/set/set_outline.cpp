#include "set/set_outline.h"

#include <toml++/toml.h>

#include <algorithm>
#include <sstream>

namespace dapple {

namespace {

std::string json_of(const toml::node& node) {
    std::ostringstream text;
    text << toml::json_formatter{node};
    return text.str();
}

OutlineTable outline_table(const std::string& kind, const toml::table& table, bool is_listed) {
    OutlineTable result;
    result.kind = kind;
    result.name = table["name"].value_or(std::string());
    if (!is_listed) result.address = kind;
    if (is_listed && !result.name.empty()) result.address = kind + "." + result.name;
    result.line = static_cast<int>(table.source().begin.line);
    std::vector<std::pair<toml::source_position, OutlineKey>> keys;
    for (const auto& [key, node] : table) {
        keys.push_back({key.source().begin, {std::string(key.str()), json_of(node)}});
    }
    std::sort(
        keys.begin(), keys.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    for (auto& [place, key] : keys) result.keys.push_back(std::move(key));
    return result;
}

}  // namespace

std::vector<OutlineTable> outline_of(const std::string& text) {
    const toml::table root = toml::parse(text);
    std::vector<OutlineTable> tables;
    for (const auto& [key, node] : root) {
        const std::string kind(key.str());
        if (const toml::table* table = node.as_table()) {
            tables.push_back(outline_table(kind, *table, false));
        }
        if (!node.is_array_of_tables()) continue;
        for (const toml::node& element : *node.as_array()) {
            tables.push_back(outline_table(kind, *element.as_table(), true));
        }
    }
    std::stable_sort(
        tables.begin(), tables.end(), [](const auto& a, const auto& b) { return a.line < b.line; });
    // A name that stands twice means neither.
    for (OutlineTable& table : tables) {
        const auto same = [&](const OutlineTable& other) { return other.address == table.address; };
        if (std::count_if(tables.begin(), tables.end(), same) > 1) table.address.clear();
    }
    return tables;
}

}  // namespace dapple
