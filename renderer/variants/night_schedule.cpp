#include "variants/night_schedule.h"

#include <algorithm>
#include <limits>

namespace dapple {

namespace {

constexpr int kFirstPasses = 2;  // of the first turn

// The higher, the sooner it is its turn.
double urgency(const NightState& state) {
    if (!state.noise_percent) {
        return std::numeric_limits<double>::max() / (1 + state.passes);
    }
    return *state.noise_percent;
}

// Passes at which a variant is finished, as far as it can be told.
std::optional<double> passes_of_finished(const NightState& state, const NightLimits& limits) {
    std::optional<double> needed;
    if (limits.passes > 0) needed = limits.passes;
    if (limits.noise_percent > 0 && state.noise_percent) {
        const double ratio = *state.noise_percent / limits.noise_percent;
        const double by_noise = state.passes * ratio * ratio;
        needed = needed ? std::min(*needed, by_noise) : by_noise;
    }
    return needed;
}

}  // namespace

bool is_finished(const NightState& state, const NightLimits& limits) {
    if (state.failed) return true;
    if (limits.passes > 0 && state.passes >= limits.passes) return true;
    return limits.noise_percent > 0 && state.noise_percent &&
           *state.noise_percent <= limits.noise_percent;
}

std::optional<NightTurn> next_turn(const std::vector<NightState>& states,
                                   const NightLimits& limits) {
    std::optional<size_t> next;
    for (size_t i = 0; i < states.size(); ++i) {
        if (is_finished(states[i], limits)) continue;
        if (!next || urgency(states[i]) > urgency(states[*next])) next = i;
    }
    if (!next) return std::nullopt;
    const int passes = states[*next].passes;
    int goal = std::max(kFirstPasses, passes + (passes + 1) / 2);
    if (limits.passes > 0) goal = std::min(goal, limits.passes);
    return NightTurn{*next, goal};
}

std::optional<double> passes_left(const std::vector<NightState>& states,
                                  const NightLimits& limits) {
    double left = 0;
    for (const NightState& state : states) {
        if (is_finished(state, limits)) continue;
        const std::optional<double> needed = passes_of_finished(state, limits);
        if (!needed) return std::nullopt;
        left += std::max(1.0, *needed - state.passes);
    }
    return left;
}

}  // namespace dapple
