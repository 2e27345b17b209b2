#include "set/text_edits.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <cstdio>
#include <sstream>

namespace dapple {

namespace {

// With as few digits as bring back the same number, and never as an integer.
std::string float_text(double value) {
    if (!std::isfinite(value)) return std::isnan(value) ? "nan" : value > 0 ? "inf" : "-inf";
    std::array<char, 32> digits{};
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value).ptr;
    std::string text(digits.data(), end);
    if (text.find_first_of(".e") == std::string::npos) text += ".0";
    return text;
}

// In double quotes, as people write it.
std::string string_text(std::string_view value) {
    std::string text = "\"";
    for (const char c : value) {
        if (c == '"' || c == '\\') text += '\\';
        if (static_cast<unsigned char>(c) >= 0x20 && c != 0x7F) {
            text += c;
            continue;
        }
        std::array<char, 8> code{};
        std::snprintf(code.data(), code.size(), "\\u%04X", static_cast<unsigned char>(c));
        text += code.data();
    }
    return text + '"';
}

// A key as TOML writes it: bare where it may be.
std::string key_text(std::string_view key) {
    const bool is_bare = !key.empty() && std::all_of(key.begin(), key.end(), [](unsigned char c) {
        return c < 0x80 && (std::isalnum(c) || c == '_' || c == '-');
    });
    return is_bare ? std::string(key) : string_text(key);
}

void write_value(std::ostream& out, const toml::node& node) {
    const char* comma = "";
    if (const auto* number = node.as_floating_point()) {
        out << float_text(number->get());
    } else if (const auto* word = node.as_string()) {
        out << string_text(word->get());
    } else if (const toml::array* list = node.as_array()) {
        out << '[';
        for (const toml::node& element : *list) {
            out << comma;
            write_value(out, element);
            comma = ", ";
        }
        out << ']';
    } else if (const toml::table* table = node.as_table()) {
        out << '{';
        for (const auto& [key, value] : *table) {
            out << comma << (*comma ? "" : " ") << key_text(key.str()) << " = ";
            write_value(out, value);
            comma = ", ";
        }
        out << (table->empty() ? "}" : " }");
    } else {
        node.visit([&](const auto& value) { out << value; });
    }
}

}  // namespace

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

std::string with_edits(const std::string& text, std::vector<TextEdit> edits) {
    std::stable_sort(edits.begin(), edits.end(), [](const TextEdit& a, const TextEdit& b) {
        return a.begin < b.begin;
    });
    std::string result;
    size_t done = 0;
    for (const TextEdit& edit : edits) {
        result += text.substr(done, edit.begin - done) + edit.text;
        done = edit.end;
    }
    return result + text.substr(done);
}

std::string value_text(const toml::node& node) {
    std::ostringstream text;
    write_value(text, node);
    return text.str();
}

}  // namespace dapple
