// The ± that is printed holds the truth as often as it says, however few the passes.
#include "film/printed_error.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>

#include "film/group_means.h"

using namespace dapple;

namespace {

// How often ± holds a mean of normal numbers, of 4000 films of some passes.
double share_held(int passes, bool widened) {
    std::mt19937 random(7);
    std::normal_distribution<double> noise(10, 3);
    constexpr int kFilms = 4000;
    int held = 0;
    for (int film = 0; film < kFilms; ++film) {
        std::vector<double> means(static_cast<size_t>(passes));
        for (double& m : means) m = noise(random);
        const GroupMeans found = make_group_means(means, 1);
        const auto error = printed_error(found.stderr_of_sum(), widened ? passes : 0);
        held += std::abs(found.sum() - 10) <= *error ? 1 : 0;
    }
    return held / static_cast<double>(kFilms);
}

}  // namespace

TEST_CASE("the printed ± holds in 68 of 100 cases, of four passes as of forty") {
    // The share has a standard error of √(0.68 · 0.32/4000) = 0.0074.
    for (const int passes : {4, 5, 8, 40}) {
        CAPTURE(passes);
        CHECK(std::abs(share_held(passes, true) - 0.6827) < 3 * 0.0074);
    }
    CHECK(share_held(4, false) < 0.6827 - 3 * 0.0074);
}

TEST_CASE("with fewer than four passes the ± is not known yet") {
    CHECK_FALSE(printed_error(0.1, 1));
    CHECK_FALSE(printed_error(0.1, 3));
    CHECK(*printed_error(0.1, 4) == doctest::Approx(0.1197).epsilon(0.001));
    CHECK_FALSE(printed_error(std::nullopt, 40));
    // An error from another source is printed as it is.
    CHECK(*printed_error(0.1, 0) == 0.1);
}

TEST_CASE("few passes must be farther apart to differ") {
    CHECK(errors_to_tell_apart(0) == 2);
    CHECK(errors_to_tell_apart(1000) == doctest::Approx(2).epsilon(0.002));
    // t(0.9545) of 3 degrees of freedom, by the sums of E113.
    CHECK(errors_to_tell_apart(4) == doctest::Approx(3.307).epsilon(0.001));
}
