#include "variants/factors.h"

#include <algorithm>
#include <cstdlib>
#include <map>
#include <optional>

#include "variants/knob_words.h"

namespace dapple {

namespace {

std::optional<double> number_of(const std::string& text) {
    char* end = nullptr;
    const double number = std::strtod(text.c_str(), &end);
    if (text.empty() || *end != 0) return std::nullopt;
    return number;
}

struct RawFactor {
    std::vector<std::string> addresses;
    std::vector<std::string> knobs;   // in words, by address
    std::vector<std::string> values;  // of the first address, by level
    std::vector<std::string> words;   // of the first address of each knob, by level
    std::vector<size_t> level;        // by variant
    bool is_range = false;
    bool has_several_knobs = false;
};

const std::string& value_at(const Variant& variant, const std::string& address) {
    const auto change = std::find_if(variant.changes.begin(),
                                     variant.changes.end(),
                                     [&](const SetChange& c) { return c.address == address; });
    return change->value;
}

RawFactor raw_factor(const Knob& knob, const std::vector<Variant>& variants) {
    RawFactor raw;
    for (const Varied& varied : knob.varied) raw.addresses.push_back(varied.address);
    raw.is_range = std::holds_alternative<VariedRange>(knob.varied.front().values);
    for (const std::string& address : raw.addresses) {
        raw.knobs.push_back(words_for_knob(address, value_at(variants.front(), address)));
    }
    std::map<std::string, size_t> known;
    for (const Variant& variant : variants) {
        std::string all;
        for (const std::string& address : raw.addresses) all += value_at(variant, address) + "\n";
        const auto [entry, is_new] = known.try_emplace(all, known.size());
        if (is_new) {
            raw.values.push_back(value_at(variant, raw.addresses[0]));
            raw.words.push_back(words_for_level(raw.addresses[0], raw.values.back()));
        }
        raw.level.push_back(entry->second);
    }
    return raw;
}

Factor to_factor(const RawFactor& raw, Choose choose) {
    Factor factor{raw.addresses, raw.knobs, raw.has_several_knobs, raw.words, raw.level, {}};
    const bool has_two = raw.values.size() == 2;
    const bool has_few = 2 * raw.values.size() <= raw.level.size();
    if (choose == Choose::kGrid || has_two || (has_few && !raw.is_range)) return factor;
    std::vector<double> numbers;
    for (const std::string& value : raw.values) {
        const std::optional<double> number = number_of(value);
        if (!number) return factor;
        numbers.push_back(*number);
    }
    for (const size_t level : raw.level) factor.at.push_back(numbers[level]);
    const auto [low, high] = std::minmax_element(numbers.begin(), numbers.end());
    factor.levels = {factor.levels[static_cast<size_t>(low - numbers.begin())],
                     factor.levels[static_cast<size_t>(high - numbers.begin())]};
    return factor;
}

}  // namespace

std::vector<Factor> make_factors(const VariantsFile& file, const std::vector<Variant>& variants) {
    std::vector<RawFactor> raws;
    for (const Knob& knob : file.knobs) {
        RawFactor raw = raw_factor(knob, variants);
        if (raw.values.size() < 2) continue;
        // Levels are numbered as they come, so knobs that change together have the same numbers.
        const auto twin = std::find_if(raws.begin(), raws.end(), [&](const RawFactor& earlier) {
            return earlier.level == raw.level;
        });
        if (twin == raws.end()) {
            raws.push_back(std::move(raw));
        } else {
            twin->has_several_knobs = true;
            for (size_t l = 0; l < raw.words.size(); ++l) twin->words[l] += ", " + raw.words[l];
            twin->addresses.insert(
                twin->addresses.end(), raw.addresses.begin(), raw.addresses.end());
            twin->knobs.insert(twin->knobs.end(), raw.knobs.begin(), raw.knobs.end());
        }
    }
    std::vector<Factor> factors;
    for (const RawFactor& raw : raws) factors.push_back(to_factor(raw, file.choose));
    return factors;
}

}  // namespace dapple
