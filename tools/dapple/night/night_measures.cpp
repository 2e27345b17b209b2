#include "night/night_measures.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace dapple {

namespace {

using nlohmann::json;

constexpr std::array<const char*, 2> kOfMeters = {"lux", "stops_from_camera"};
constexpr std::array<const char*, 7> kOfRegions = {"mean_luminance",
                                                   "texture_stops",
                                                   "uniformity",
                                                   "patch_cm",
                                                   "cover",
                                                   "deep_shadow_share",
                                                   "clipped_share"};
constexpr std::array<const char*, 3> kOfFrame = {"mean", "deep_shadow_share", "clipped_share"};
const std::string kFrame = "frame";
const std::string kSides = "figure, ";  // their names begin so

// Ratios have a list of their own: "figure.key_to_fill" is "figure, key : fill" there.
struct RatioKey {
    std::string_view key, name;
};
constexpr std::array<RatioKey, 2> kRatios = {
    {{"key_to_fill", "key : fill"}, {"lit_to_shadow", "lit : shadow side"}}};

// The parts of the statistics whose name a measure begins with; the first that has a key counts.
std::vector<const json*> parts_named(const json& stats, const std::string& name) {
    std::vector<const json*> parts;
    if (name == kFrame) {
        for (const char* block : {"luminance", "picture", "stops"}) {
            if (stats.contains(block)) parts.push_back(&stats[block]);
        }
        return parts;
    }
    for (const char* list : {"regions", "meters", "sides"}) {
        if (!stats.contains(list) || stats[list].is_null()) continue;
        for (const json& part : stats[list]) {
            if (part.value("name", "") == name) parts.push_back(&part);
        }
    }
    return parts;
}

std::optional<double> number_in(const json& part, const std::string& key) {
    if (!part.contains(key) || !part[key].is_number()) return std::nullopt;
    return part[key].get<double>();
}

// The light of a meter in stops and as an f-number has the relative error of its lux.
std::optional<double> error_from_lux(const json& part, const std::string& key) {
    const auto lux = number_in(part, "lux");
    const auto error = number_in(part, "lux_stderr");
    if (!lux || !error || !(*lux > 0)) return std::nullopt;
    if (key == "stops_from_camera") return *error / (*lux * std::log(2.0));
    const auto f_number = number_in(part, key);
    return key == "f_number" && f_number ? std::optional(*f_number * *error / (2 * *lux))
                                         : std::nullopt;
}

// "texture_stops" has its error under "texture_stderr", "cover" under "cover_stderr".
std::optional<double> error_in(const json& part, const std::string& key) {
    for (const std::string& name : {key, key.substr(0, key.rfind('_'))}) {
        if (const auto error = number_in(part, name + "_stderr")) return error;
    }
    return error_from_lux(part, key);
}

// The passes whose spread the error is; 0: it comes from two halves of the walks.
int passes_behind(const json& stats, const json& part, const std::string& key) {
    const bool is_mean = key == "mean" || key == "mean_luminance";
    return is_mean || part.contains("lux") ? stats.value("passes", 0) : 0;
}

std::string reason_in(const json& part, const std::string& key) {
    const json why = part.value("why", json());
    if (why.is_string()) return why.get<std::string>();
    return why.is_object() ? why.value(key, "not known") : "not known";
}

// Nothing if the key is none of a ratio.
std::optional<Measure> ratio_in(const json& stats,
                                const std::string& name,
                                const std::string& key) {
    const auto known = std::find_if(
        kRatios.begin(), kRatios.end(), [&](const RatioKey& ratio) { return ratio.key == key; });
    if (known == kRatios.end()) return std::nullopt;
    for (const json& ratio : stats.value("ratios", json::array())) {
        if (ratio.value("name", "") != name + ", " + std::string(known->name)) continue;
        const auto value = number_in(ratio, "value");
        if (!value) return Measure::unknown(reason_in(ratio, key));
        return Measure{value, number_in(ratio, "stderr"), {}, stats.value("passes", 0)};
    }
    return Measure::unknown("no key and fill at the " + name);
}

[[noreturn]] void refuse(const std::string& measure,
                         const std::string& key,
                         const std::vector<const json*>& parts,
                         const Place& place) {
    std::vector<std::string> keys;
    for (const json* part : parts) {
        for (const auto& item : part->items()) keys.push_back(item.key());
    }
    const std::string nearest = nearest_word(key, keys);
    throw FileError(to_string(place),
                    measure + ": there is no measure \"" + key + "\"" +
                        (nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?"));
}

}  // namespace

Measure measure_in(const json& stats, const std::string& measure, const Place& place) {
    const size_t dot = measure.rfind('.');
    const std::string name = measure.substr(0, dot);
    const std::string key = dot == std::string::npos ? "" : measure.substr(dot + 1);
    if (auto ratio = ratio_in(stats, name, key)) return *ratio;
    const std::vector<const json*> parts = parts_named(stats, name);
    if (parts.empty() && name.starts_with(kSides)) {
        const json why = stats.value("sides_why", json());
        return Measure::unknown(why.is_string() ? why.get<std::string>() : "no figure");
    }
    if (parts.empty()) {
        throw FileError(to_string(place),
                        measure + ": the set has no region or meter \"" + name + "\"");
    }
    for (const json* part : parts) {
        if (!part->contains(key)) continue;
        const auto value = number_in(*part, key);
        if (!value) return Measure::unknown(reason_in(*part, key));
        return {value, error_in(*part, key), {}, passes_behind(stats, *part, key)};
    }
    refuse(measure, key, parts, place);
}

Measure usual_measure_in(const json& stats, const std::string& measure) {
    try {
        return measure_in(stats, measure, {});
    } catch (const FileError&) {
        return Measure::unknown("not measured");
    }
}

std::vector<std::string> measures_of_regions() {
    return {kOfRegions.begin(), kOfRegions.end()};
}

std::vector<std::string> measures_of_ratios() {
    return {std::string(kRatios[0].key), std::string(kRatios[1].key)};
}

std::vector<std::string> sides_of_figure() {
    return {kSides + "lit side", kSides + "shadow side"};
}

std::vector<std::string> measures_of_meters() {
    return {"lux", "f_number", "stops_from_camera"};
}

std::vector<std::string> measures_of_frame() {
    return {"mean",
            "median",
            "min",
            "max",
            "p01",
            "p05",
            "p95",
            "p99",
            "deep_shadow_share",
            "clipped_share",
            "saturated_share"};
}

std::vector<std::string> night_measures(const NightPlan& plan,
                                        const std::vector<NightVariantState>& states) {
    std::vector<std::string> names;
    const auto add = [&](const std::string& name) {
        if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
    };
    for (const Wish& wish : plan.file.wishes) add(wish.measure);
    const auto with_stats = std::find_if(
        states.begin(), states.end(), [](const auto& s) { return s.stats.is_object(); });
    if (with_stats == states.end()) return names;
    const json& stats = with_stats->stats;
    const auto add_all = [&](const char* list, const auto& keys) {
        for (const json& part : stats.value(list, json::array())) {
            for (const char* key : keys) add(part.value("name", "") + "." + key);
        }
    };
    add_all("meters", kOfMeters);
    add_all("regions", kOfRegions);
    for (const char* key : kOfFrame) add(kFrame + "." + key);
    return names;
}

}  // namespace dapple
