#include "variants/knob_words.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string_view>

#include "set/variants/read_variants.h"

namespace dapple {

namespace {

constexpr int kMostDecimals = 6;

// Tables of a set file that have no names.
constexpr std::array<std::string_view, 3> kPlainTables = {"camera.", "room.", "mains."};

struct UnitWord {
    std::string_view ending, word;
};
constexpr std::array<UnitWord, 16> kUnits = {{{"_deg", "°"},
                                              {"_cd_m2", " cd/m²"},
                                              {"_k", " K"},
                                              {"_mm", " mm"},
                                              {"_cm", " cm"},
                                              {"_m", " m"},
                                              {"_m2", " m²"},
                                              {"_lm", " lm"},
                                              {"_lx", " lx"},
                                              {"_cd", " cd"},
                                              {"_w", " W"},
                                              {"_s", " s"},
                                              {"_px", " px"},
                                              {"_mired", " mired"},
                                              {"_stops", " stops"},
                                              {".stops", " stops"}}};

const UnitWord* unit_of(const std::string& address) {
    for (const UnitWord& unit : kUnits) {
        if (address.ends_with(unit.ending)) return &unit;
    }
    return nullptr;
}

bool is_number(const std::string& text) {
    char* end = nullptr;
    std::strtod(text.c_str(), &end);
    return !text.empty() && *end == 0;
}

// Whether the value is a table, a whole thing.
bool is_thing(const std::string& value) {
    return value.starts_with('{');
}

struct KnownMeasure {
    std::string_view key, name, unit, more, less;
    double scale;
};
constexpr std::array<KnownMeasure, 14> kMeasures = {{
    {"texture_stops", "texture", "stops", "more broken up", "more even", 1},
    {"mean_luminance", "mean luminance", "cd/m²", "brighter", "darker", 1},
    {"uniformity", "uniformity", "", "more uniform", "less uniform", 1},
    {"patch_cm", "patches", "cm", "coarser", "finer", 1},
    {"cover", "cover", "%", "more covered by light", "less covered by light", 100},
    {"deep_shadow_share",
     "deep shadow",
     "%",
     "with more deep shadow",
     "with less deep shadow",
     100},
    {"clipped_share", "clipped", "%", "more burnt", "less burnt", 100},
    {"saturated_share", "saturated", "%", "more burnt", "less burnt", 100},
    {"lux", "light", "lx", "brighter", "darker", 1},
    {"stops_from_camera", "over the camera's setting", "stops", "brighter", "darker", 1},
    {"f_number", "f-number", "", "brighter", "darker", 1},
    {"key_to_fill", "key : fill", ": 1", "with more contrast", "softer", 1},
    {"lit_to_shadow", "lit : shadow side", ": 1", "with more contrast", "softer", 1},
    {"mean", "mean luminance", "cd/m²", "brighter", "darker", 1},
}};

std::string spaced(std::string text) {
    std::replace(text.begin(), text.end(), '_', ' ');
    return text;
}

// With a minus sign as in print, and none before 0.
std::string fixed_text(double value, int decimals) {
    std::array<char, 64> text{};
    std::snprintf(text.data(), text.size(), "%.*f", std::max(0, decimals), std::abs(value));
    const std::string size = text.data();
    const bool is_zero = size.find_first_not_of("0.") == std::string::npos;
    return (value < 0 && !is_zero ? "−" : "") + size;
}

// Decimals that show so many digits of a number.
int decimals_for(double number, int digits) {
    if (!(std::abs(number) > 0)) return digits;
    return digits - 1 - static_cast<int>(std::floor(std::log10(std::abs(number))));
}

}  // namespace

std::string words_for_address(const std::string& address) {
    std::string words = address;
    const auto begins = [&](std::string_view table) { return address.starts_with(table); };
    const bool is_plain = std::any_of(kPlainTables.begin(), kPlainTables.end(), begins);
    if (const size_t dot = words.find('.'); !is_plain && dot != std::string::npos) {
        words.erase(0, dot + 1);
    }
    if (const UnitWord* unit = unit_of(address); unit && unit->ending.front() == '_') {
        if (words.size() > unit->ending.size()) words.resize(words.size() - unit->ending.size());
    }
    std::replace(words.begin(), words.end(), '.', ' ');
    if (words.ends_with(" cct")) words.replace(words.size() - 3, 3, "colour");
    return spaced(words);
}

std::string words_for_knob(const std::string& address, const std::string& value) {
    return words_for_address(address) + (is_thing(value) ? " swap" : "");
}

std::string words_for_change(const std::string& address, const std::string& value) {
    return words_for_address(address) + (is_thing(value) ? " → " : " ") +
           words_for_level(address, value);
}

std::string words_for_level(const std::string& address, const std::string& value) {
    const UnitWord* unit = unit_of(address);
    return unit && is_number(value) ? value + std::string(unit->word) : word_for_value(value);
}

MeasureWords words_for_measure(const std::string& measure) {
    const size_t dot = measure.rfind('.');
    const std::string part = dot == std::string::npos ? "" : measure.substr(0, dot) + " ";
    const std::string key = dot == std::string::npos ? measure : measure.substr(dot + 1);
    for (const KnownMeasure& known : kMeasures) {
        if (known.key != key) continue;
        return {part + std::string(known.name),
                std::string(known.unit),
                std::string(known.more),
                std::string(known.less),
                known.scale};
    }
    return {part + spaced(key), "", "higher", "lower", 1};
}

std::string figure_text(double value, std::optional<double> error) {
    const int without = std::min(decimals_for(value, 3), kMostDecimals);
    if (!error) return fixed_text(value, without);
    if (!(*error > 0)) return fixed_text(value, without) + " ± 0";
    const bool begins_with_1 = *error * std::pow(10, decimals_for(*error, 1)) < 1.95;
    const int wanted = decimals_for(*error, begins_with_1 ? 2 : 1);
    const int shown = std::clamp(std::min(wanted, decimals_for(value, 4)), 0, kMostDecimals);
    const double least = std::pow(10, -shown);
    return fixed_text(value, shown) + " ± " +
           (*error < least / 2 ? "< " + fixed_text(least, shown) : fixed_text(*error, shown));
}

}  // namespace dapple
