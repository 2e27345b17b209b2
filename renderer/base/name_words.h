// Words in the names that people give to things: "Key light, left" has the word "key".
#pragma once

#include <string>
#include <vector>

namespace dapple {

// The words of a name in small letters. Everything but letters and digits parts words.
std::vector<std::string> words_of_name(const std::string& name);

// Whether one of the words, in small letters, stands in the name.
bool name_has_word(const std::string& name, const std::vector<std::string>& words);

// Whether a surface, region or meter of this name belongs to the figure: it has one of the words
// figure, skin, face, hair, dress or cape.
bool is_figure_name(const std::string& name);

}  // namespace dapple
