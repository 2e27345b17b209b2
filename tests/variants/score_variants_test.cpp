// Scores, their errors, and ties.
#include "variants/score_variants.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>

using namespace dapple;

namespace {

std::vector<int> places_of(const std::vector<ScoreRank>& standings) {
    std::vector<int> places;
    for (const ScoreRank& s : standings) places.push_back(s.place);
    return places;
}

const std::vector<Wish> kWishes = {{"wall.texture_stops", WishKind::kNear, 0.6, 2, {}},
                                   {"wall.mean_luminance", WishKind::kMost, 0, 0.5, {}},
                                   {"wall.clipped_share", WishKind::kLeast, 0, 1, {}}};

}  // namespace

TEST_CASE("a score adds the distances from the wishes, and its error those of the measures") {
    const Measure score = score_of(
        kWishes, {Measure::known(0.5, 0.03), Measure::known(8, 0.2), Measure::known(0.25, 0.05)});
    CHECK(*score == doctest::Approx(2 * 0.1 - 0.5 * 8 + 0.25));
    CHECK(*score.error == doctest::Approx(std::sqrt(0.06 * 0.06 + 0.1 * 0.1 + 0.05 * 0.05)));
}

// By finite differences, as the score is straight around each of these points.
TEST_CASE("the error of a score is that of its formula") {
    const std::vector<double> at = {0.8, 3, 0.1};
    const std::vector<double> errors = {0.02, 0.4, 0.01};
    const auto score = [&](const std::vector<double>& values) {
        std::vector<Measure> measures;
        for (size_t i = 0; i < 3; ++i) measures.push_back(Measure::known(values[i], errors[i]));
        return score_of(kWishes, measures);
    };
    double variance = 0;
    for (size_t i = 0; i < 3; ++i) {
        std::vector<double> moved = at;
        moved[i] += 1e-4;
        variance += std::pow((*score(moved) - *score(at)) / 1e-4 * errors[i], 2);
    }
    CHECK(*score(at).error == doctest::Approx(std::sqrt(variance)).epsilon(1e-6));
}

TEST_CASE("a score is not known if a measure is not, and has no error if one has none") {
    const Measure known = Measure::known(1, 0.1);
    CHECK(score_of(kWishes, {known, Measure::unknown("no pixels"), known}).why == "no pixels");
    const Measure score = score_of(kWishes, {known, {1.0, std::nullopt, {}}, known});
    CHECK(score);
    CHECK_FALSE(score.error);
    CHECK_FALSE(score_of({}, {}));
}

TEST_CASE("variants whose scores are within two errors of their difference share a place") {
    // The error of a difference is 0.05; two of them are 0.1.
    const double e = 0.05 / std::sqrt(2.0);
    const std::vector<ScoreRank> standings = rank_scores({Measure::known(1.31, e),
                                                          Measure::known(1.00, e),
                                                          Measure::unknown("failed"),
                                                          Measure::known(1.09, e),
                                                          Measure::known(1.15, e),
                                                          Measure::known(1.12, e)});
    // 1.09 ties with 1.00; 1.12 does not, and begins a group to which 1.15 belongs.
    CHECK(places_of(standings) == std::vector<int>{5, 1, 0, 1, 3, 3});
    CHECK(standings[0].tied == false);
    CHECK(standings[1].tied == true);
    CHECK(standings[4].rank == 4);
    CHECK(standings[2].rank == 0);
    CHECK_FALSE(standings[2].tied);
}

TEST_CASE("without errors ties are not known, and equal scores are equal") {
    const Measure one{1.0, std::nullopt, {}};
    const Measure two{2.0, std::nullopt, {}};
    const std::vector<ScoreRank> standings = rank_scores({two, one, two});
    CHECK(places_of(standings) == std::vector<int>{2, 1, 2});
    for (const ScoreRank& s : standings) CHECK_FALSE(s.tied);
}

TEST_CASE("two like variants are told apart by chance about as seldom as two errors say") {
    std::mt19937 random(8);
    std::normal_distribution<double> noise(0, 0.1);
    constexpr int kPairs = 4000;
    int apart = 0;
    for (int i = 0; i < kPairs; ++i) {
        const auto standings =
            rank_scores({Measure::known(noise(random), 0.1), Measure::known(noise(random), 0.1)});
        apart += *standings[0].tied ? 0 : 1;
    }
    // 4.55 % of 4000 are 182, with a standard error of 13.
    CHECK(std::abs(apart - 182) < 3 * 13);
}

TEST_CASE("a difference of two measures has the error of both") {
    const Measure d = difference_of(Measure::known(1, 0.3), Measure::known(3, 0.4));
    CHECK(*d == doctest::Approx(2));
    CHECK(*d.error == doctest::Approx(0.5));
    CHECK_FALSE(difference_of(Measure::unknown("x"), Measure::known(3, 0.4)));
    CHECK_FALSE(difference_of(Measure{1.0, std::nullopt, {}}, Measure::known(3, 0.4)).error);
}
