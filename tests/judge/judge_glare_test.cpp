#include "judge/judge_glare.h"

#include <doctest/doctest.h>

#include <functional>

#include "known_films.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// A dark and a bright half, 1 and 64 cd/m², and an even veil of the second of two lamps.
FilmRecord veiled_film(double veil) {
    FilmRecord film = known_film(40, 20, {"key", "back"}, [](int x, int, size_t fixture) {
        return fixture == 1 ? 0.0 : x < 20 ? 1.0 : 64.0;
    });
    const auto grey = Rgb(static_cast<float>(veil / white_luminance(film.camera)));
    film.layers[0].glare.assign(800, Rgb(0));
    film.layers[1].glare.assign(800, grey);
    film.glare.assign(800, grey);
    return film;
}

}  // namespace

TEST_CASE("a film without glare has nothing to say about it") {
    const FilmRecord film = known_film(8, 8, {"key"}, [](int, int, size_t) { return 1.0; });
    CHECK_FALSE(judge_glare(film, {}));
}

TEST_CASE("an even veil costs the contrast that arithmetic says") {
    const FilmRecord film = veiled_film(3);
    const auto glare = judge_glare(film, {});
    REQUIRE(glare);
    // 1 : 64 becomes 4 : 67.
    CHECK(*glare->picture.contrast_lost == doctest::Approx(6 - std::log2(67.0 / 4)).epsilon(1e-4));
    CHECK(*glare->picture.shadows_raised == doctest::Approx(2).epsilon(1e-4));
    CHECK(glare->mean_luminance == doctest::Approx(32.5 + 3).epsilon(1e-4));
    REQUIRE(glare->picture.by_fixture.size() == 1);
    CHECK(glare->picture.by_fixture[0].fixture == "back");
    CHECK(glare->picture.by_fixture[0].share == doctest::Approx(1));
}

TEST_CASE("noise gives the contrast lost an error") {
    FilmRecord film = veiled_film(3);
    for (size_t i = 0; i < film.noise.size(); ++i) film.noise[i] = 0.1F;
    const auto glare = judge_glare(film, {});
    REQUIRE(glare->picture.contrast_lost.error);
    // Halves of 1.1 and 0.9 in the dark: what is lost differs by log2 of their ratios.
    const auto lost = [](double h) {
        return std::log2((64 + h) / (1 + h)) - std::log2((67 + h) / (4 + h));
    };
    CHECK(*glare->picture.contrast_lost.error ==
          doctest::Approx(0.5 * (lost(-0.1) - lost(0.1))).epsilon(1e-3));
}

TEST_CASE("a few pixels have no percentiles, and that is said") {
    FilmRecord film = veiled_film(3);
    add_region(film, "speck", 0, 0, 3, 3);
    const auto glare = judge_glare(film, {});
    CHECK_FALSE(glare->regions[0].contrast_lost);
    CHECK(glare->regions[0].contrast_lost.why == "too few pixels");
}

namespace {

// The same two halves, with a glare of the second lamp of this many cd/m² in each column.
FilmRecord glowing_film(const std::function<double(int x)>& glow) {
    FilmRecord film = veiled_film(0);
    for (int i = 0; i < 800; ++i) {
        const auto grey = Rgb(static_cast<float>(glow(i % 40) / white_luminance(film.camera)));
        film.layers[1].glare[static_cast<size_t>(i)] = film.glare[static_cast<size_t>(i)] = grey;
    }
    return film;
}

}  // namespace

TEST_CASE("a glow beside the bright part costs the contrast of the veil on the dark part") {
    // 1 on the dark half, much more on the bright one: the picture's range grows, but its dark half
    // is as grey as under an even veil of 1.
    const auto glow = judge_glare(glowing_film([](int x) { return x < 20 ? 1.0 : 300.0; }), {});
    const auto veil = judge_glare(veiled_film(1), {});
    CHECK(*glow->picture.contrast_lost > 0);
    CHECK(*glow->picture.contrast_lost ==
          doctest::Approx(*veil->picture.contrast_lost).epsilon(1e-4));
    CHECK(*glow->picture.shadows_raised == doctest::Approx(1).epsilon(1e-4));
}

TEST_CASE("a veil on the dark part alone costs all that it raises the shadows") {
    const auto glare = judge_glare(glowing_film([](int x) { return x < 20 ? 3.0 : 0.0; }), {});
    CHECK(*glare->picture.contrast_lost == doctest::Approx(2).epsilon(1e-4));
    CHECK(*glare->picture.shadows_raised == doctest::Approx(2).epsilon(1e-4));
}

TEST_CASE("glare on the bright part alone, or light taken away, costs no contrast") {
    for (const double in_dark : {0.0, -0.5}) {
        const auto glare =
            judge_glare(glowing_film([&](int x) { return x < 20 ? in_dark : 30.0; }), {});
        CHECK(*glare->picture.contrast_lost == 0);
        CHECK(*glare->picture.shadows_raised <= 0);
    }
}
