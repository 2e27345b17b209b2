#include "rebalance/balance.h"

#include <algorithm>
#include <cmath>

#include "rebalance/balance_search.h"

namespace dapple {

namespace {

double log_of(const Spots& spots, const std::vector<LayerChange>& changes) {
    const auto log_sum = [&](const SpotLight& spot) {
        double sum = 0;
        for (const double l : spot.by_fixture(changes)) sum += l;
        return std::log2(std::max(0.0, sum));
    };
    return log_sum(spots.light) - (spots.against ? log_sum(*spots.against) : 0);
}

// The brighter side of each ratio, if there are only ratios; each once.
std::vector<HeldLevel> find_held(const FilmRecord& film,
                                 const std::vector<Target>& targets,
                                 const std::vector<LayerChange>& unchanged) {
    std::vector<HeldLevel> held;
    for (const Target& target : targets) {
        if (!target.against) return {};
        const LightSpot& light = target.wanted < 0 ? *target.against : target.light;
        const bool is_new = std::none_of(
            held.begin(), held.end(), [&](const HeldLevel& h) { return h.light == light; });
        if (!is_new) continue;
        const double level = log_of(spots_at(film, light), unchanged);
        held.push_back({light, level, level});
    }
    return held;
}

// Errors of the two sides of a ratio are taken as independent.
std::optional<double> error_of(const Spots& spots, const std::vector<LayerChange>& changes) {
    const auto light = spots.light.stderr_stops(changes);
    if (!spots.against || !light) return light;
    const auto against = spots.against->stderr_stops(changes);
    return against ? std::optional(std::hypot(*light, *against)) : std::nullopt;
}

bool sends_light(const FilmRecord& film,
                 const LightSpot& spot,
                 const std::vector<size_t>& kept,
                 const std::vector<LayerChange>& unchanged) {
    const std::vector<double> light = SpotLight(film, spot).by_fixture(unchanged);
    for (size_t f = 0; f < light.size(); ++f) {
        if (light[f] > kLeastLight && may_change(film, f, kept)) return true;
    }
    return false;
}

bool is_dark(const FilmRecord& film,
             const LightSpot& spot,
             const std::vector<LayerChange>& unchanged) {
    double sum = 0;
    for (const double l : SpotLight(film, spot).by_fixture(unchanged)) sum += l;
    return !(sum > kLeastLight);
}

}  // namespace

void check_targets(const FilmRecord& film,
                   const std::vector<Target>& targets,
                   const std::vector<size_t>& kept,
                   Problems& problems) {
    const auto unchanged = make_layer_changes(film, film.fixtures);
    for (const Target& target : targets) {
        std::vector<LightSpot> spots = {target.light};
        if (target.against) spots.push_back(*target.against);
        const auto dark = std::find_if(spots.begin(), spots.end(), [&](const LightSpot& spot) {
            return is_dark(film, spot, unchanged);
        });
        if (dark != spots.end()) {
            problems.add({target.text}, "", "no fixture's light reaches " + spot_text(film, *dark));
        } else if (std::none_of(spots.begin(), spots.end(), [&](const LightSpot& spot) {
                       return sends_light(film, spot, kept, unchanged);
                   })) {
            problems.add({target.text}, "", "no fixture that may be dimmed lights it");
        }
    }
}

Balance find_balance(const FilmRecord& film,
                     const std::vector<Target>& targets,
                     const std::vector<size_t>& kept,
                     double most_dimmer) {
    const auto unchanged = make_layer_changes(film, film.fixtures);
    std::vector<HeldLevel> held = find_held(film, targets, unchanged);
    const BalanceSearch search(film, targets, held, kept, most_dimmer);
    Balance balance{search.find(), {}, std::move(held)};
    const auto changes = make_layer_changes(film, balance.fixtures);
    for (HeldLevel& h : balance.held) h.after = log_of(spots_at(film, h.light), changes);
    for (const Target& target : targets) {
        const Spots spots(film, target);
        balance.results.push_back(
            {target, log_of(spots, unchanged), log_of(spots, changes), error_of(spots, changes)});
    }
    return balance;
}

}  // namespace dapple
