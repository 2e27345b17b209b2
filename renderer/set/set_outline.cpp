#include "set/set_outline.h"

#include <toml++/toml.h>

#include <algorithm>
#include <map>
#include <span>
#include <sstream>

namespace dapple {

namespace {

std::string json_of(const toml::node& node) {
    std::ostringstream text;
    text << toml::json_formatter{node};
    return text.str();
}

// `place`: of a listed table, from 1; 0 for any other.
OutlineTable outline_table(const std::string& kind, const toml::table& table, size_t place) {
    OutlineTable result;
    result.kind = kind;
    result.name = table["name"].value_or(std::string());
    result.address = kind;
    if (place > 0) {
        const std::string counted = "#" + std::to_string(place);
        result.address += "." + (result.name.empty() ? counted : result.name);
    }
    result.line = static_cast<int>(table.source().begin.line);
    std::vector<std::pair<toml::source_position, OutlineKey>> keys;
    for (const auto& [key, node] : table) {
        keys.push_back({key.source().begin, {std::string(key.str()), json_of(node)}});
    }
    std::sort(
        keys.begin(), keys.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    for (auto& [at, key] : keys) result.keys.push_back(std::move(key));
    return result;
}

// A name that stands twice means neither, so these tables are counted.
void count_names_twice(std::span<OutlineTable> tables) {
    std::map<std::string, int> uses;
    for (const OutlineTable& table : tables) ++uses[table.name];
    for (size_t i = 0; i < tables.size(); ++i) {
        OutlineTable& table = tables[i];
        if (uses[table.name] > 1) table.address = table.kind + ".#" + std::to_string(i + 1);
    }
}

}  // namespace

std::vector<OutlineTable> outline_of(const std::string& text) {
    const toml::table root = toml::parse(text);
    std::vector<OutlineTable> tables;
    for (const auto& [key, node] : root) {
        const std::string kind(key.str());
        if (const toml::table* table = node.as_table()) {
            tables.push_back(outline_table(kind, *table, 0));
        }
        if (!node.is_array_of_tables()) continue;
        const toml::array& array = *node.as_array();
        const size_t first = tables.size();
        for (const toml::node& element : array) {
            tables.push_back(outline_table(kind, *element.as_table(), tables.size() - first + 1));
        }
        count_names_twice({tables.begin() + static_cast<std::ptrdiff_t>(first), tables.end()});
    }
    std::stable_sort(
        tables.begin(), tables.end(), [](const auto& a, const auto& b) { return a.line < b.line; });
    return tables;
}

}  // namespace dapple
