#include "rebalance/why_missed.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>

#include "rebalance/spot_light.h"

namespace dapple {

namespace {

constexpr double kMatters = 0.01;     // of the light
constexpr double kFarAbove = 0x1p10;  // full, where more light than that is no help
constexpr double kNoStops = 0.05;     // half of the last digit shown

void add_name(std::string& list, const std::string& name) {
    list += (list.empty() ? "" : ", ") + name;
}

// Whether the fixture gives a hundredth of the light that one side of the target reads.
bool matters_for(const FilmRecord& film,
                 const std::vector<LayerChange>& changes,
                 const Target& target,
                 size_t fixture) {
    std::vector<LightSpot> spots = {target.light};
    if (target.against) spots.push_back(*target.against);
    return std::any_of(spots.begin(), spots.end(), [&](const LightSpot& spot) {
        const std::vector<double> light = SpotLight(film, spot).by_fixture(changes);
        return light[fixture] > kMatters * std::accumulate(light.begin(), light.end(), 0.0);
    });
}

void add_list(std::string& text, const std::string& names, const std::string& state) {
    if (!names.empty()) text += ", with " + names + " " + state;
}

// The target by itself: what it gets to, and the dimmers that stop it. A ratio may be stopped by
// both limits.
std::string limit_text(const FilmRecord& film,
                       const std::vector<size_t>& kept,
                       const Balance& alone) {
    const TargetResult& result = alone.results.front();
    const bool is_ratio = result.target.against.has_value();
    const bool is_dark = result.missed_stops() < 0;
    const std::array states = {make_layer_changes(film, film.fixtures),
                               make_layer_changes(film, alone.fixtures)};
    std::string full;
    std::string off;
    std::string as_is;
    for (size_t i = 0; i < alone.fixtures.size(); ++i) {
        const Fixture& f = alone.fixtures[i];
        const auto dimmer = static_cast<double>(f.dimmer);
        const bool matters = std::any_of(states.begin(), states.end(), [&](const auto& changes) {
            return matters_for(film, changes, result.target, i);
        });
        if (!matters) continue;
        if (f.is_window || std::find(kept.begin(), kept.end(), i) != kept.end()) {
            add_name(as_is, f.name);
        } else if (dimmer >= 0.999 && (is_ratio || is_dark)) {
            add_name(full, f.name);
        } else if (dimmer < 1.01 * kLeastDimmer && (is_ratio || !is_dark)) {
            add_name(off, f.name);
        }
    }
    std::string text = "alone it gets to " + value_text(film, result.target, result.after);
    add_list(text, full, "at full");
    add_list(text, off, "as good as off");
    if (!as_is.empty()) text += ", " + as_is + " kept";
    return text;
}

bool are_reached(const Balance& balance) {
    for (const TargetResult& r : balance.results) {
        if (!r.is_reached()) return false;
    }
    return true;
}

// Which other targets stand against one that can be met alone.
std::string conflict_text(const FilmRecord& film,
                          const std::vector<size_t>& kept,
                          const Balance& balance,
                          size_t missed) {
    std::string others;
    for (size_t j = 0; j < balance.results.size(); ++j) {
        const Target& other = balance.results[j].target;
        if (j == missed) continue;
        const Target& target = balance.results[missed].target;
        if (are_reached(find_balance(film, {target, other}, kept))) continue;
        add_name(others, "\"" + other.text + "\"");
    }
    return others.empty() ? "can be met alone, but not with all the others"
                          : "can be met alone, but conflicts with " + others;
}

}  // namespace

std::vector<std::string> why_missed(const FilmRecord& film,
                                    const std::vector<size_t>& kept,
                                    const Balance& balance) {
    std::vector<std::string> reasons;
    std::vector<bool> can_be_met;
    for (const TargetResult& r : balance.results) {
        const Balance alone = find_balance(film, {r.target}, kept);
        can_be_met.push_back(are_reached(alone));
        const bool is_told = !r.is_reached() && !can_be_met.back();
        reasons.push_back(is_told ? limit_text(film, kept, alone) : "");
    }
    for (size_t i = 0; i < reasons.size(); ++i) {
        if (balance.results[i].is_reached() || !can_be_met[i]) continue;
        reasons[i] = conflict_text(film, kept, balance, i);
    }
    return reasons;
}

std::vector<Wanting> find_wanting(const FilmRecord& film,
                                  const std::vector<size_t>& kept,
                                  const Balance& balance) {
    if (are_reached(balance)) return {};
    std::vector<Target> targets;
    for (const TargetResult& r : balance.results) targets.push_back(r.target);
    const Balance free = find_balance(film, targets, kept, kFarAbove);
    if (!are_reached(free)) return {};
    std::vector<Wanting> wanting;
    for (size_t f = 0; f < free.fixtures.size(); ++f) {
        const double stops = std::log2(std::max(1.0, static_cast<double>(free.fixtures[f].dimmer)));
        if (stops >= kNoStops) wanting.push_back({f, stops});
    }
    return wanting;
}

}  // namespace dapple
