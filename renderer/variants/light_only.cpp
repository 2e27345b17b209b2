#include "variants/light_only.h"

#include <array>
#include <map>
#include <string_view>

#include "base/written_number.h"
#include "set/variants/read_variants.h"

namespace dapple {

namespace {

constexpr std::string_view kFixture = "fixture.";
constexpr std::array<std::string_view, 5> kLightKeys = {
    ".dimmer", ".cct_k", ".duv", ".gel.shift_mired", ".gel.stops"};

// Light that is switched off cannot be made brighter again.
bool has_dark_lamp(const Variant& variant) {
    for (const SetChange& change : variant.changes) {
        if (!change.address.ends_with(".dimmer")) continue;
        const std::string word = word_for_value(change.value);
        if (number_in_words(word, quantity_of("dimmer")).value_or(0) <= 0) return true;
    }
    return false;
}

}  // namespace

bool is_light_only(const SetChange& change) {
    if (!change.address.starts_with(kFixture)) return false;
    for (const std::string_view key : kLightKeys) {
        if (change.address.ends_with(key)) return true;
    }
    // A sheet by its trade name, in quotation marks.
    return change.address.ends_with(".gel") && change.value.starts_with('"');
}

std::vector<size_t> film_of_each(const std::vector<Variant>& variants) {
    std::map<std::string, size_t> first;
    std::vector<std::string> sets;
    for (size_t i = 0; i < variants.size(); ++i) {
        std::string& set = sets.emplace_back();
        for (const SetChange& change : variants[i].changes) {
            if (!is_light_only(change)) set += change.address + "=" + change.value + "\n";
        }
        if (!has_dark_lamp(variants[i])) first.try_emplace(set, i);
    }
    std::vector<size_t> films;
    for (size_t i = 0; i < variants.size(); ++i) {
        const auto film = first.find(sets[i]);
        films.push_back(film == first.end() ? i : film->second);
    }
    return films;
}

std::vector<std::string> light_settings(const Variant& variant) {
    std::vector<std::string> settings;
    for (const SetChange& change : variant.changes) {
        if (is_light_only(change)) {
            settings.push_back(change.address.substr(kFixture.size()) + "=" +
                               word_for_value(change.value));
        }
    }
    return settings;
}

}  // namespace dapple
