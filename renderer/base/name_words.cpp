#include "base/name_words.h"

#include <algorithm>
#include <cctype>

namespace dapple {

std::vector<std::string> words_of_name(const std::string& name) {
    std::vector<std::string> words;
    bool is_in_word = false;
    for (const char c : name) {
        const auto letter = static_cast<unsigned char>(c);
        const bool counts = std::isalnum(letter) != 0;
        if (counts && !is_in_word) words.emplace_back();
        if (counts) words.back() += static_cast<char>(std::tolower(letter));
        is_in_word = counts;
    }
    return words;
}

bool name_has_word(const std::string& name, const std::vector<std::string>& words) {
    const std::vector<std::string> own = words_of_name(name);
    return std::any_of(own.begin(), own.end(), [&](const std::string& word) {
        return std::find(words.begin(), words.end(), word) != words.end();
    });
}

bool is_figure_name(const std::string& name) {
    return name_has_word(name, {"figure", "skin", "face", "hair", "dress", "cape"});
}

}  // namespace dapple
