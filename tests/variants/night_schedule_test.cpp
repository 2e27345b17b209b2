#include "variants/night_schedule.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

using namespace dapple;

namespace {

// Films whose noise is `first[i]` after one pass and falls with the root of the passes.
std::vector<NightState> night(const std::vector<double>& first, int passes_of_all) {
    std::vector<NightState> states(first.size());
    int made = 0;
    while (made < passes_of_all) {
        const std::optional<NightTurn> turn = next_turn(states, {});
        NightState& state = states[turn->variant];
        made += turn->passes - state.passes;
        state.passes = turn->passes;
        state.noise_percent = first[turn->variant] / std::sqrt(state.passes);
    }
    return states;
}

}  // namespace

TEST_CASE("every variant gets two passes before any gets more") {
    for (const NightState& state : night({1, 50, 3, 20, 7}, 10)) CHECK(state.passes == 2);
}

TEST_CASE("whenever the night ends, the noise of all is within a factor of two") {
    // From 60 passes on, the passes can make up for these different noises.
    const std::vector<double> first = {20, 25, 30, 40, 22, 35};
    for (int passes = 60; passes < 3000; passes = passes * 5 / 4) {
        double least = 1e9;
        double most = 0;
        for (const NightState& state : night(first, passes)) {
            least = std::min(least, *state.noise_percent);
            most = std::max(most, *state.noise_percent);
        }
        CHECK(most < 2 * least);
    }
}

TEST_CASE("a variant is finished at its limit, and one that failed is left out") {
    std::vector<NightState> states = {{8, 5.0, false}, {2, 2.0, false}, {0, {}, true}};
    CHECK(next_turn(states, {.passes = 8})->variant == 1);
    CHECK(next_turn(states, {.passes = 8})->passes == 3);
    CHECK(next_turn(states, {.noise_percent = 3})->variant == 0);
    CHECK(next_turn(states, {.passes = 9})->passes == 9);
    states[1].passes = 8;
    CHECK_FALSE(next_turn(states, {.passes = 8}));
}

TEST_CASE("the passes that are left follow from the limits, if they say") {
    const std::vector<NightState> states = {{8, 6.0, false}, {4, {}, false}, {1, {}, true}};
    CHECK(*passes_left(states, {.passes = 10}) == doctest::Approx(2 + 6));
    CHECK_FALSE(passes_left(states, {.noise_percent = 3}));  // the second one's is not known yet
    CHECK_FALSE(passes_left(states, {}));
    // Half the noise takes four times the passes; the limit of passes comes first for the other.
    CHECK(*passes_left(states, {.passes = 100, .noise_percent = 3}) == doctest::Approx(3 * 8 + 96));
}
