// Which variant is rendered next, and how far.
//
// First every variant gets a few passes, until its noise is known. Then the noisiest goes on until
// it has half as many passes again, and so on: whenever the night ends, no variant has had much
// more than its share. Noise falls with the root of the passes, so the noises differ by a factor of
// about √1.5, unless some variant was much noisier than all others from the start.
#pragma once

#include <optional>
#include <vector>

namespace dapple {

// What is known of a variant's film.
struct NightState {
    int passes = 0;
    std::optional<double> noise_percent;
    bool failed = false;
};

// When a variant is finished; 0: no such limit. Without any, the night goes on.
struct NightLimits {
    int passes = 0;
    double noise_percent = 0;
};

struct NightTurn {
    size_t variant = 0;
    int passes = 0;  // that its film then has in total
};

bool is_finished(const NightState& state, const NightLimits& limits);

// Nothing: all variants are finished or have failed.
std::optional<NightTurn> next_turn(const std::vector<NightState>& states,
                                   const NightLimits& limits);

// Passes that all variants together still need, as far as it can be told: noise falls with the root
// of the passes. Nothing: the limits do not say, or not yet.
std::optional<double> passes_left(const std::vector<NightState>& states, const NightLimits& limits);

}  // namespace dapple
