// Words that people use for things that set files call otherwise.
//
// The trade has several words for most things: a gobo is a flag with a stencil, kelvin is cct_k.
// A table of them answers an unknown word with ours where spelling alone would not.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace dapple {

// In lower case, with _ for spaces and hyphens.
std::string plain_word(std::string_view word);

struct OtherWord {
    std::string_view ours;
    std::string_view words;  // other words for it, separated by spaces, as plain_word writes them
    std::string_view hint;   // what else the user needs to know; or ""
};

// The first entry of the table that has this word and whose `ours` is a candidate; or nullptr.
const OtherWord* find_other_word(std::string_view word, const std::vector<std::string>& candidates);

}  // namespace dapple
