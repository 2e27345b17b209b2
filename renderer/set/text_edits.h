// Replaces pieces of a TOML text by the places of its nodes.
#pragma once

#include <toml++/toml.h>

#include <string>
#include <vector>

namespace dapple {

// A piece of the text and what replaces it.
struct TextEdit {
    size_t begin = 0, end = 0;  // offsets in bytes
    std::string text;
};

// The offset of a place: lines end at \n, columns count characters of UTF-8, both from 1.
size_t offset_of(const std::string& text, const toml::source_position& at);

// The edits must not overlap. Those that begin at the same place keep their order.
std::string with_edits(const std::string& text, std::vector<TextEdit> edits);

// The value as TOML writes it on one line.
std::string value_text(const toml::node& node);

}  // namespace dapple
