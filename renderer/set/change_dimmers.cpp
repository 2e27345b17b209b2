#include "set/change_dimmers.h"

#include <toml++/toml.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <sstream>
#include <vector>

namespace dapple {

namespace {

// A piece of the text and what replaces it.
struct Edit {
    size_t begin = 0, end = 0;
    std::string text;
};

// The offset of a place: lines end at \n, columns count characters of UTF-8, both from 1.
size_t offset_of(const std::string& text, const toml::source_position& at) {
    size_t offset = 0;
    for (toml::source_index line = 1; line < at.line; ++line) {
        offset = std::min(text.size(), text.find('\n', offset)) + 1;
    }
    for (toml::source_index column = 1; column < at.column && offset < text.size(); ++column) {
        ++offset;
        while (offset < text.size() &&
               (static_cast<unsigned char>(text[offset]) & 0xC0U) == 0x80U) {
            ++offset;
        }
    }
    return std::min(offset, text.size());
}

std::string dimmer_text(double dimmer) {
    std::array<char, 32> number{};
    std::snprintf(number.data(), number.size(), "%.4g", dimmer);
    const std::string text = number.data();
    return text.find_first_of(".e") == std::string::npos ? text + ".0" : text;
}

Edit edit_of(const std::string& text, const toml::table& fixture, double dimmer) {
    const std::string number = dimmer_text(dimmer);
    if (const toml::node* old = fixture.get("dimmer")) {
        return {offset_of(text, old->source().begin), offset_of(text, old->source().end), number};
    }
    const size_t end = offset_of(text, fixture.get("name")->source().end);
    if (fixture.is_inline()) return {end, end, ", dimmer = " + number};
    const size_t line_end = std::min(text.size(), text.find('\n', end));
    return {line_end, line_end, "\ndimmer = " + number};
}

}  // namespace

std::string change_dimmers(const std::string& path,
                           const std::string& text,
                           const std::map<std::string, double>& dimmers,
                           Problems& problems) {
    std::vector<Edit> edits;
    std::map<std::string, double> missing = dimmers;
    try {
        const toml::table set = toml::parse(text, path);
        const toml::array* fixtures = set["fixture"].as_array();
        for (size_t i = 0; fixtures && i < fixtures->size(); ++i) {
            const toml::table* fixture = fixtures->get(i)->as_table();
            const auto name = fixture ? (*fixture)["name"].value<std::string>() : std::nullopt;
            const auto wanted = name ? missing.find(*name) : missing.end();
            if (wanted == missing.end()) continue;
            edits.push_back(edit_of(text, *fixture, wanted->second));
            missing.erase(wanted);
        }
    } catch (const toml::parse_error& error) {
        const auto& at = error.source().begin;
        problems.add({path, static_cast<int>(at.line), static_cast<int>(at.column)},
                     "",
                     std::string(error.description()));
        return text;
    }
    for (const auto& [name, dimmer] : missing) {
        problems.add({path}, "fixture", "there is none of the name \"" + name + "\"");
    }
    std::sort(
        edits.begin(), edits.end(), [](const Edit& a, const Edit& b) { return a.begin > b.begin; });
    std::string result = text;
    for (const Edit& edit : edits) result.replace(edit.begin, edit.end - edit.begin, edit.text);
    return result;
}

}  // namespace dapple
