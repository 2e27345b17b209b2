#include "set/text_edits.h"

#include <algorithm>
#include <sstream>

namespace dapple {

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
    if (const toml::table* table = node.as_table()) {
        toml::table flat = *table;
        flat.is_inline(true);
        text << toml::toml_formatter{
            flat, toml::toml_formatter::default_flags & ~toml::format_flags::indentation};
        return text.str();
    }
    node.visit([&](const auto& value) { text << value; });
    return text.str();
}

}  // namespace dapple
