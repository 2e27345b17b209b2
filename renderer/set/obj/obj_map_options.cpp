#include "set/obj/obj_map_options.h"

#include <algorithm>
#include <iterator>

#include "set/obj/obj_text.h"
#include "set/text_file.h"

namespace dapple {

namespace {

struct Option {
    std::string_view name;
    int least;      // number of words that always belong to the option
    int most;       // number of words that belong to it if they are numbers
    float neutral;  // the value that changes nothing
    bool changes;   // whether other values change the picture
};

constexpr Option kOptions[] = {
    {"-s", 1, 3, 1, true},
    {"-o", 1, 3, 0, true},
    {"-t", 1, 3, 0, true},
    {"-mm", 2, 2, 0, true},
    {"-clamp", 1, 1, 0, true},
    {"-bm", 1, 1, 0, false},
    {"-blendu", 1, 1, 0, false},
    {"-blendv", 1, 1, 0, false},
    {"-boost", 1, 1, 0, false},
    {"-cc", 1, 1, 0, false},
    {"-imfchan", 1, 1, 0, false},
    {"-texres", 1, 1, 0, false},
    {"-type", 1, 1, 0, false},
    {"-colorspace", 1, 1, 0, false},
};

std::string_view trim_left(std::string_view text) {
    const size_t first = text.find_first_not_of(" \t\v\f");
    return first == std::string_view::npos ? text.substr(text.size()) : text.substr(first);
}

std::string_view first_word(std::string_view text) {
    return text.substr(0, std::min(text.find_first_of(" \t\v\f"), text.size()));
}

}  // namespace

std::string_view take_map_options(std::string_view& rest) {
    std::string_view changing;
    while (true) {
        const std::string_view word = first_word(rest);
        const std::string name = lower_case(word);
        const auto* option = std::find_if(
            std::begin(kOptions), std::end(kOptions), [&](auto& o) { return o.name == name; });
        if (option == std::end(kOptions)) return changing;
        rest = trim_left(rest.substr(word.size()));
        for (int i = 0; i < option->most; ++i) {
            const std::string_view value_word = first_word(rest);
            float value = 0;
            const bool is_number = read_number(value_word, value) == nullptr;
            if (i >= option->least && !is_number) break;
            const float neutral = option->name == "-mm" && i == 1 ? 1 : option->neutral;
            const bool is_neutral = is_number ? value == neutral : lower_case(value_word) == "off";
            if (option->changes && !is_neutral && changing.empty()) changing = word;
            rest = trim_left(rest.substr(value_word.size()));
        }
    }
}

}  // namespace dapple
