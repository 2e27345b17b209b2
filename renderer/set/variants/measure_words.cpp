#include "set/variants/measure_words.h"

#include <array>
#include <string_view>

namespace dapple {

namespace {

struct MeasureWord {
    std::string_view word, key;
};
constexpr std::array<MeasureWord, 11> kMeasureWords = {{{"texture", "texture_stops"},
                                                        {"patches", "patch_cm"},
                                                        {"patch size", "patch_cm"},
                                                        {"brightness", "mean_luminance"},
                                                        {"stops", "stops_from_camera"},
                                                        {"light", "lux"},
                                                        {"deep shadow", "deep_shadow_share"},
                                                        {"burnt", "clipped_share"},
                                                        {"f-number", "f_number"},
                                                        {"key:fill", "key_to_fill"},
                                                        {"lit:shadow", "lit_to_shadow"}}};

}  // namespace

std::string measure_key(const std::string& word) {
    for (const MeasureWord& known : kMeasureWords) {
        if (known.word == word) return std::string(known.key);
    }
    return word;
}

std::string measure_address(const std::string& words) {
    const size_t dot = words.rfind('.');
    if (dot == std::string::npos) return words;
    return words.substr(0, dot + 1) + measure_key(words.substr(dot + 1));
}

}  // namespace dapple
