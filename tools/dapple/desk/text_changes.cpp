#include "desk/text_changes.h"

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <string_view>

namespace dapple {

namespace {

constexpr std::array<std::string_view, 7> kThings = {
    "fixture", "glass", "diffuser", "flag", "bounce", "stand_in", "meter"};
// They make no surface, and change none.
constexpr std::array<std::string_view, 16> kPlaceKeys = {"position",
                                                         "aim",
                                                         "facing",
                                                         "turn_deg",
                                                         "tilt_deg",
                                                         "clip_mm",
                                                         "beam_angle_deg",
                                                         "field_angle_deg",
                                                         "barn_doors_deg",
                                                         "source_mm",
                                                         "panel_m",
                                                         "housing_mm",
                                                         "dimmer",
                                                         "cct_k",
                                                         "duv",
                                                         "gel"};

template <size_t N>
bool is_one_of(const std::array<std::string_view, N>& words, std::string_view word) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

const std::string* value_of(const OutlineTable& table, std::string_view key) {
    for (const OutlineKey& k : table.keys) {
        if (k.key == key) return &k.json;
    }
    return nullptr;
}

// The keys that are not the same in both.
std::vector<std::string> keys_between(const OutlineTable& before, const OutlineTable& after) {
    std::vector<std::string> keys;
    for (const OutlineKey& k : after.keys) {
        const std::string* const was = value_of(before, k.key);
        if (!was || *was != k.json) keys.push_back(k.key);
    }
    for (const OutlineKey& k : before.keys) {
        if (!value_of(after, k.key)) keys.push_back(k.key);
    }
    return keys;
}

bool names(const OutlineTable& table, const std::string& quoted) {
    return std::any_of(table.keys.begin(), table.keys.end(), [&](const OutlineKey& k) {
        return k.key != "name" && k.json.find(quoted) != std::string::npos;
    });
}

bool is_clipped_to(const OutlineTable& table, const std::string& quoted) {
    const std::string* const fixture = value_of(table, "clip_to");
    return fixture && *fixture == quoted;
}

// The one fixture to which all of these tables belong; nothing if there is none.
std::optional<size_t> owner_of(const std::vector<size_t>& changed,
                               const std::vector<OutlineTable>& tables) {
    std::optional<size_t> owner;
    size_t number = 0;
    for (size_t i = 0; i < tables.size(); ++i) {
        if (tables[i].kind != "fixture") continue;
        const std::string quoted = nlohmann::json(tables[i].name).dump();
        const bool has_name = !tables[i].name.empty();
        const auto belongs = [&](size_t t) {
            return t == i || (has_name && is_clipped_to(tables[t], quoted));
        };
        if (std::all_of(changed.begin(), changed.end(), belongs)) {
            for (size_t t = 0; has_name && t < tables.size(); ++t) {
                if (t != i && names(tables[t], quoted) && !is_clipped_to(tables[t], quoted))
                    return std::nullopt;
            }
            owner = number;
        }
        ++number;
    }
    return owner;
}

}  // namespace

TextChanges changes_between(const std::vector<OutlineTable>& before,
                            const std::vector<OutlineTable>& after) {
    TextChanges changes;
    std::vector<size_t> changed;
    bool same_list = before.size() == after.size();
    for (size_t i = 0; same_list && i < after.size(); ++i) {
        if (before[i].kind != after[i].kind || before[i].address != after[i].address) {
            same_list = false;
            break;
        }
        const std::vector<std::string> keys = keys_between(before[i], after[i]);
        if (keys.empty()) continue;
        changed.push_back(i);
        const bool are_places = is_one_of(kThings, after[i].kind) &&
                                std::all_of(keys.begin(), keys.end(), [](const std::string& key) {
                                    return is_one_of(kPlaceKeys, key);
                                });
        changes.only_places = changes.only_places && are_places;
    }
    changes.are_there = !same_list || !changed.empty();
    changes.only_places = changes.only_places && same_list;
    if (same_list && !changed.empty()) changes.fixture = owner_of(changed, after);
    return changes;
}

}  // namespace dapple
