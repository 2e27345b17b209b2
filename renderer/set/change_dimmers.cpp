#include "set/change_dimmers.h"

#include <toml++/toml.h>

#include <array>
#include <cstdio>
#include <vector>

#include "set/change_set.h"
#include "set/toml_text.h"

namespace dapple {

namespace {

std::string dimmer_text(double dimmer) {
    std::array<char, 32> number{};
    std::snprintf(number.data(), number.size(), "%.4g", dimmer);
    const std::string text = number.data();
    return text.find_first_of(".e") == std::string::npos ? text + ".0" : text;
}

}  // namespace

std::string change_dimmers(const std::string& path,
                           const std::string& text,
                           const std::map<std::string, double>& dimmers,
                           Problems& problems) {
    std::vector<SetChange> changes;
    for (const auto& [name, dimmer] : dimmers) {
        changes.push_back({"fixture." + name + ".dimmer", dimmer_text(dimmer), {path}});
    }
    try {
        return change_set(text, changes, problems);
    } catch (const toml::parse_error& error) {
        const auto& at = error.source().begin;
        problems.add({path, static_cast<int>(at.line), static_cast<int>(at.column)},
                     "",
                     toml_mistake(error.description(), text, at.line));
        return text;
    }
}

}  // namespace dapple
