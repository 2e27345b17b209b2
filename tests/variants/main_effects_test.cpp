// Main effects: a published plan, made-up truths, noise alone, and knobs that change together.
#include "variants/main_effects.h"

#include <doctest/doctest.h>

#include <cmath>
#include <random>

#include "variants/effect_words.h"
#include "variants/knob_words.h"

using namespace dapple;

namespace {

Factor factor_of(const std::string& name,
                 const std::vector<std::string>& levels,
                 const std::vector<size_t>& level) {
    return {{name}, {words_for_address(name)}, false, levels, level, {}};
}

// A complete grid of the given numbers of levels, the last factor fastest.
std::vector<Factor> grid_of(const std::vector<size_t>& counts) {
    size_t all = 1;
    for (const size_t count : counts) all *= count;
    std::vector<Factor> factors;
    size_t stride = all;
    for (size_t k = 0; k < counts.size(); ++k) {
        stride /= counts[k];
        Factor factor = factor_of("knob." + std::to_string(k), {}, {});
        for (size_t l = 0; l < counts[k]; ++l) factor.levels.push_back(std::to_string(l));
        for (size_t i = 0; i < all; ++i) factor.level.push_back(i / stride % counts[k]);
        factors.push_back(factor);
    }
    return factors;
}

std::vector<size_t> own_films(size_t count) {
    std::vector<size_t> films;
    for (size_t i = 0; i < count; ++i) films.push_back(i);
    return films;
}

std::vector<Measure> known(const std::vector<double>& values, double error) {
    std::vector<Measure> measures;
    for (const double value : values) measures.push_back(Measure::known(value, error));
    return measures;
}

}  // namespace

// The pilot plant of Box, Hunter and Hunter, Statistics for Experimenters, 1978, table 10.1 (from
// memory): yield by temperature, concentration and catalyst, each the mean of two runs, whose
// variance of a single run is estimated as 8. Printed: temperature 23.0, concentration -5.0,
// catalyst 1.5, each with the standard error 1.4; their products 1.5, 10.0, 0.0 and 0.5.
TEST_CASE("the effects of the pilot plant are those of the textbook") {
    const std::vector<Factor> factors = {
        factor_of("plant.temperature", {"160", "180"}, {0, 1, 0, 1, 0, 1, 0, 1}),
        factor_of("plant.concentration", {"20", "40"}, {0, 0, 1, 1, 0, 0, 1, 1}),
        factor_of("plant.catalyst", {"A", "B"}, {0, 0, 0, 0, 1, 1, 1, 1})};
    const MainEffects effects = fit_main_effects(
        factors, known({60, 72, 54, 68, 52, 83, 45, 80}, std::sqrt(8.0 / 2)), own_films(8));
    CHECK(effects.mean == doctest::Approx(64.25));
    const double printed[] = {23.0, -5.0, 1.5};
    for (size_t k = 0; k < 3; ++k) {
        const KnobEffect& knob = effects.knobs[k];
        CHECK(knob.levels[1].mean - knob.levels[0].mean == doctest::Approx(printed[k]));
        CHECK(std::abs(*knob.moved_error - 1.4) < 0.05);  // printed with one decimal
    }
    CHECK(effects.knobs[0].beyond_noise);
    CHECK(effects.knobs[1].beyond_noise);
    CHECK_FALSE(effects.knobs[2].beyond_noise);
    // A sum of squares is 2 effect² for eight runs.
    const double products = 1.5 * 1.5 + 10.0 * 10.0 + 0.5 * 0.5;
    const double all = 23.0 * 23.0 + 5.0 * 5.0 + 1.5 * 1.5 + products;
    CHECK(*effects.unexplained_share == doctest::Approx(products / all));
    CHECK(*effects.noise_share == doctest::Approx(4 * 4.0 / (2 * all)));
}

TEST_CASE("in a grid an effect is the mean over its level less the grand mean") {
    const std::vector<Factor> factors = grid_of({3, 4, 2});
    std::mt19937 random(3);
    std::uniform_real_distribution<double> any(0, 1);
    std::vector<double> values(24);
    for (double& v : values) v = any(random);
    const MainEffects effects = fit_main_effects(factors, known(values, 0.1), own_films(24));
    for (size_t k = 0; k < factors.size(); ++k) {
        const double per_level = 24.0 / static_cast<double>(factors[k].levels.size());
        for (size_t l = 0; l < factors[k].levels.size(); ++l) {
            double mean = 0;
            for (size_t i = 0; i < 24; ++i) {
                if (factors[k].level[i] == l) mean += values[i] / per_level;
            }
            const LevelEffect& level = effects.knobs[k].levels[l];
            CHECK(level.mean == doctest::Approx(mean));
            // Of a level's mean and the grand mean, which has part of the same variants.
            CHECK(*level.error == doctest::Approx(0.1 * std::sqrt(1 / per_level - 1 / 24.0)));
        }
    }
}

TEST_CASE("an additive truth is found in part of a grid, in samples and with a line") {
    std::vector<Factor> factors = grid_of({3, 2, 2});
    const std::vector<double> first = {-0.2, 0.5, -0.3};
    std::mt19937 random(4);
    std::uniform_real_distribution<double> any(2000, 6000);
    factors.push_back(factor_of("lamp.cct_k", {"2000 K", "6000 K"}, std::vector<size_t>(12, 0)));
    std::vector<Measure> measures;
    for (size_t i = 0; i < 12; ++i) {
        factors[3].at.push_back(i == 0 ? 2000 : i == 1 ? 6000 : any(random));
        const double value = 7 + first[factors[0].level[i]] +
                             (factors[1].level[i] == 1 ? 0.1 : -0.1) + factors[3].at[i] / 1000;
        measures.push_back(Measure::known(value, 0.01));
    }
    measures[5] = Measure::unknown("no film");
    const MainEffects effects = fit_main_effects(factors, measures, own_films(12));
    CHECK(effects.variants == 11);
    CHECK(*effects.unexplained_share < 1e-12);
    for (size_t l = 0; l < 3; ++l) {
        CHECK(effects.knobs[0].levels[l].mean - effects.mean == doctest::Approx(first[l]));
    }
    CHECK(effects.knobs[1].moved() == doctest::Approx(0.2));
    CHECK(effects.knobs[3].moved() == doctest::Approx(4.0));
    CHECK_FALSE(effects.knobs[2].beyond_noise);
}

TEST_CASE("of noise alone few knobs are said to move anything, and errors are as stated") {
    const std::vector<Factor> factors = grid_of({5, 4, 3});
    std::mt19937 random(5);
    std::normal_distribution<double> noise(0, 0.3);
    constexpr int kNights = 400;
    int moved = 0;
    double squares = 0;
    for (int night = 0; night < kNights; ++night) {
        std::vector<double> values(60);
        for (double& v : values) v = 1 + noise(random);
        const MainEffects effects = fit_main_effects(factors, known(values, 0.3), own_films(60));
        for (const KnobEffect& knob : effects.knobs) moved += knob.beyond_noise ? 1 : 0;
        const LevelEffect& level = effects.knobs[1].levels[2];
        squares += std::pow((level.mean - effects.mean) / *level.error, 2) / kNights;
    }
    // At most as often as one difference is beyond two standard errors, 4.6 %; of 1200 knobs 55,
    // and its standard error is 7.
    CHECK(moved < 55 + 3 * 7);
    // A mean of 400 squares of normal numbers: 1 with a standard error of √(2/400) = 0.07.
    CHECK(squares == doctest::Approx(1).epsilon(0.21));
}

TEST_CASE("variants of one film do not make an error smaller") {
    const std::vector<Factor> factors = grid_of({2, 4});
    // The first knob needs a film of its own, the second only dims.
    const std::vector<size_t> films = {0, 0, 0, 0, 4, 4, 4, 4};
    const MainEffects effects =
        fit_main_effects(factors, known({1, 2, 3, 4, 2, 3, 4, 5}, 0.1), films);
    CHECK(*effects.knobs[0].moved_error == doctest::Approx(0.1 * std::sqrt(2)));
    CHECK(*effects.knobs[1].moved_error == doctest::Approx(0.1));
}

TEST_CASE("knobs that act together are not explained by main effects") {
    const std::vector<Factor> factors = grid_of({2, 2});
    const MainEffects effects = fit_main_effects(factors, known({0, 1, 1, 0}, 0.001), own_films(4));
    CHECK(*effects.unexplained_share == doctest::Approx(1));
    CHECK_FALSE(effects.knobs[0].beyond_noise);
    CHECK(explained_sentence(effects).find("act together") != std::string::npos);
}

TEST_CASE("what lines leave makes the errors of samples larger") {
    std::vector<Factor> factors = {factor_of("lamp.dimmer", {"0", "1"}, {})};
    std::vector<double> values;
    for (size_t i = 0; i < 16; ++i) {
        factors[0].level.push_back(i);
        factors[0].at.push_back(static_cast<double>(i) / 15);
        values.push_back(std::sin(9 * factors[0].at.back()));
    }
    const MainEffects bent = fit_main_effects(factors, known(values, 1e-4), own_films(16));
    CHECK(*bent.knobs[0].moved_error > 0.2);
    CHECK_FALSE(bent.knobs[0].beyond_noise);
}

TEST_CASE("knobs that cannot be told apart are named, and the others still fitted") {
    // The third follows from the first two: half of a grid of three.
    std::vector<Factor> factors = grid_of({2, 2, 2});
    factors[1].level = factors[0].level;
    MainEffects effects =
        fit_main_effects(factors, known({0, 1, 0, 1, 4, 5, 4, 5}, 0.01), own_films(8));
    CHECK(effects.knobs[0].apart == std::vector<size_t>{1});
    CHECK(effects.knobs[1].apart == std::vector<size_t>{0});
    CHECK(effects.knobs[1].levels.empty());
    CHECK(effects.knobs[2].moved() == doctest::Approx(1));
    CHECK(effects.knobs[2].apart.empty());
    CHECK(apart_sentences(factors, effects) ==
          std::vector<std::string>{
              "0 and 1 cannot be told apart: no variant changes one without the others."});

    // Three variants cannot tell three knobs apart.
    factors = {factor_of("a.x", {"1", "2"}, {0, 1, 0}),
               factor_of("a.y", {"1", "2"}, {0, 0, 1}),
               factor_of("a.z", {"1", "2"}, {0, 1, 1})};
    effects = fit_main_effects(factors, known({0, 1, 2}, 0.01), own_films(3));
    for (const KnobEffect& knob : effects.knobs) CHECK(knob.apart.size() == 2);
}

TEST_CASE("errors that are not known are not made up") {
    const std::vector<Factor> factors = grid_of({2, 2});
    std::vector<Measure> measures(4, Measure{1.0, std::nullopt, {}});
    measures[3].value = 2;
    MainEffects effects = fit_main_effects(factors, measures, own_films(4));
    CHECK_FALSE(effects.knobs[0].moved_error);
    CHECK_FALSE(effects.noise_share);
    CHECK(effects.knobs[0].moved() == doctest::Approx(0.5));
    CHECK(most_moved_sentence("wall.p95", factors, effects) ==
          "What moved wall p95 is not known: its error is not known.");
    effects = fit_main_effects(factors, std::vector<Measure>(4), own_films(4));
    CHECK(effects.variants == 0);
    CHECK(effects.knobs.empty());
}

TEST_CASE("the sentence names the knob, the measure, both values and the error") {
    Factor turn = factor_of("glass.ribbed jar.turn_deg", {"0°", "15°"}, {0, 0, 1, 1});
    Factor wing = factor_of("flag.wing", {"with", "without"}, {0, 1, 0, 1});
    const MainEffects effects =
        fit_main_effects({turn, wing}, known({0.41, 0.43, 0.70, 0.72}, 0.02), own_films(4));
    CHECK(
        most_moved_sentence("back wall.texture_stops", {turn, wing}, effects) ==
        "Ribbed jar turn moved back wall texture most: 0.42 at 0° to 0.71 at 15°, a difference of "
        "0.29 ± 0.02 stops.");
}

TEST_CASE("where no knob moved a measure, the knobs explain nothing") {
    const std::vector<Factor> factors = grid_of({2, 2});
    // A sum of both knobs to the letter, and errors that are much larger.
    const MainEffects effects = fit_main_effects(factors, known({1, 2, 3, 4}, 10), own_films(4));
    CHECK(most_moved_sentence("wall.texture_stops", factors, effects) ==
          "No knob moved wall texture beyond the noise.");
    CHECK(explained_sentence(effects) ==
          "The differences between the variants are within their errors; more passes may tell.");
}

TEST_CASE("errors of few passes are widened, and those of fewer than four are not shown") {
    const std::vector<Factor> factors = grid_of({2, 2});
    const auto of_passes = [](int passes) {
        std::vector<Measure> measures = known({1, 1, 1.5, 1.5}, 0.1);
        for (Measure& m : measures) m.passes = passes;
        return measures;
    };
    // Four variants of two passes have four degrees of freedom together, as five passes have.
    const MainEffects few = fit_main_effects(factors, of_passes(2), own_films(4));
    CHECK(few.passes == 5);
    // 0.1 √(1/2 + 1/2) · t(0.6827, 4) = 0.1 · 1.142
    CHECK(most_moved_sentence("wall.mean_luminance", factors, few) ==
          "0 moved wall mean luminance most: 1.00 at 0 to 1.50 at 1, a difference of "
          "0.50 ± 0.11 cd/m².");
    const std::vector<Factor> one = {factor_of("lamp.dimmer", {"0", "1"}, {0, 1})};
    std::vector<Measure> two = {Measure::known(1, 0.001, 2), Measure::known(2, 0.001, 2)};
    const MainEffects pair = fit_main_effects(one, two, own_films(2));
    CHECK(pair.passes == 3);
    CHECK(most_moved_sentence("wall.mean_luminance", one, pair) ==
          "Dimmer moved wall mean luminance most: 1.00 at 0 to 2.00 at 1, a difference of "
          "1.00 cd/m².");
}

TEST_CASE("where things are swapped, the sentence says so") {
    Factor jar = factor_of("glass.ribbed jar", {"jar-ribbed", "bottle-amber"}, {0, 0, 1, 1});
    jar.knobs = {words_for_knob("glass.ribbed jar", "{ kit = \"bottle-amber\" }")};
    Factor wing = factor_of("flag.wing", {"with", "without"}, {0, 1, 0, 1});
    const MainEffects effects =
        fit_main_effects({jar, wing}, known({0.41, 0.43, 0.70, 0.72}, 0.02), own_films(4));
    CHECK(most_moved_sentence("back wall.texture_stops", {jar, wing}, effects) ==
          "Ribbed jar swap moved back wall texture most: 0.42 with jar-ribbed to 0.71 with "
          "bottle-amber, a difference of 0.29 ± 0.02 stops.");
}
