#include "desk/live_light.h"

#include <algorithm>
#include <array>
#include <map>
#include <nlohmann/json.hpp>

#include "rebalance/rebalance.h"
#include "rebalance/settings.h"
#include "set/set_outline.h"

namespace dapple {

namespace {

using nlohmann::json;

constexpr std::array<std::string_view, 3> kLampKeys = {"dimmer", "cct_k", "duv"};

// Adds the settings that lead from one value of a fixture's key to another. False: there are none.
bool add_settings(const std::string& name,
                  const std::string& key,
                  const json& before,
                  const json& after,
                  std::vector<std::string>& settings) {
    if (before == after) return true;
    if (after.is_number()) {
        const bool is_lamp =
            std::find(kLampKeys.begin(), kLampKeys.end(), key) != kLampKeys.end() ||
            key == "gel.stops" || key == "gel.shift_mired";
        if (is_lamp) settings.push_back(name + "." + key + "=" + after.dump());
        return is_lamp;
    }
    if (key != "gel" || !before.is_object() || !after.is_object()) return false;
    if (before.size() != after.size()) return false;
    for (const auto& [part, value] : after.items()) {
        if (!before.contains(part)) return false;
        if (!add_settings(name, "gel." + part, before.at(part), value, settings)) return false;
    }
    return true;
}

// The same for a table. Keys may be added, as a dimmer that was not written before.
bool add_settings(const OutlineTable& before,
                  const OutlineTable& after,
                  std::vector<std::string>& settings) {
    if (before.kind != after.kind || before.address != after.address) return false;
    std::map<std::string, json> old;
    for (const OutlineKey& key : before.keys) old[key.key] = json::parse(key.json);
    for (const OutlineKey& key : after.keys) {
        const json value = json::parse(key.json);
        const json was = old.contains(key.key) ? old[key.key] : json();
        old.erase(key.key);
        if (value == was) continue;
        // Settings go by name.
        if (after.kind != "fixture" || after.address != "fixture." + after.name) return false;
        if (!add_settings(after.name, key.key, was, value, settings)) return false;
    }
    return old.empty();
}

// Nothing if more than the light differs.
std::optional<std::vector<std::string>> settings_between(const std::string& before,
                                                         const std::string& after) {
    const std::vector<OutlineTable> old = outline_of(before);
    const std::vector<OutlineTable> now = outline_of(after);
    if (old.size() != now.size()) return std::nullopt;
    std::vector<std::string> settings;
    for (size_t i = 0; i < old.size(); ++i) {
        if (!add_settings(old[i], now[i], settings)) return std::nullopt;
    }
    return settings;
}

}  // namespace

void LiveLight::keep(std::string text, std::shared_ptr<const FilmRecord> film) {
    text_ = std::move(text);
    film_ = std::move(film);
}

std::optional<Picture> LiveLight::frame_of(const std::string& text) const {
    if (!film_) return std::nullopt;
    Settings wanted;
    try {
        const auto settings = settings_between(text_, text);
        if (!settings || settings->empty()) return std::nullopt;
        wanted.set = *settings;
    } catch (const std::exception&) {
        return std::nullopt;  // not TOML: the set's reader says so
    }
    Problems problems;
    const std::vector<Fixture> fixtures = apply_settings(*film_, wanted, problems);
    if (!problems.empty()) return std::nullopt;
    const std::vector<LayerChange> changes = make_layer_changes(*film_, fixtures);
    const FilmRecord film = rebalance(*film_, fixtures, changes);
    return develop_display({film.width(), film.height(), shown_light(film)});
}

}  // namespace dapple
