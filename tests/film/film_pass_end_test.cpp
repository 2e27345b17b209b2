// What the film keeps at the end of a pass, and what it leaves out if the pass is stopped.
#include <doctest/doctest.h>

#include <cmath>
#include <limits>
#include <utility>
#include <vector>

#include "film/test_films.h"

namespace dapple {

TEST_CASE("the film keeps the halves of light walks and other light apart") {
    Film film(3, 1, warm_and_cool(), kQuantum);
    const float lit[2] = {3, 5};
    for (uint32_t pass = 0; pass < 3; ++pass) {
        film.begin_pass(make_pass_wavelengths(1, pass));
        for (int g = 0; g < 2; ++g) {
            film.add(0, 0, g, Spectrum(lit[0]), 0);
            film.add(0, 0, g, Spectrum(lit[1]), 1);
            film.add(1, g, Spectrum(lit[0] + static_cast<float>(pass)));
        }
        film.end_pass();
    }
    const FilmState& state = film.state();
    const auto light = [&](const QuantaPlane& plane, size_t i) { return film.in_cd_m2(plane[i]); };
    // The groups' luminances of one unit add up to 1.
    CHECK(light(state.walk_differences, 3) == doctest::Approx(-2 + 2 - 2));
    CHECK(std::abs(light(state.other_light, 0)) < 1e-5);
    CHECK(state.walk_differences[4] == 0);
    CHECK(light(state.other_light, 1) == doctest::Approx(3 + 4 + 5));
    CHECK(light(state.odd_other_light, 1) == doctest::Approx(4));
    CHECK(light(state.brightest_pass, 1) == doctest::Approx(5));
    CHECK(light(state.brightest_pass, 0) == doctest::Approx(8));
    // Of 3, 4 and 5: the mean of the lower two and its standard error by hand, 0.71 / √2.
    CHECK(film.without_brightest_pass(1).mean == doctest::Approx(3.5));
    CHECK(film.without_brightest_pass(1).stderr_of_mean == doctest::Approx(0.5));
    // Y of pixel 1, of the even and of the odd passes; planes of 3 pixels.
    CHECK(light(state.colour_sums, 1 * 3 + 1) == doctest::Approx(3 + 5));
    CHECK(light(state.colour_sums, 4 * 3 + 1) == doctest::Approx(4));
}

TEST_CASE("a pass that is dropped leaves the film as it was") {
    Film film = film_of_passes(3, 2, {2, 4});
    const FilmSums before = film.sums();
    film.begin_pass(make_pass_wavelengths(1, 2));
    for (int i = 0; i < film.pixels(); ++i) film.add(i, 0, Spectrum(5.0F));
    film.add(0, 0, Spectrum(1e4F));  // more than 32 bits hold: put aside
    film.add(0, 0, Spectrum(std::numeric_limits<float>::infinity()));
    film.add(1, 0, 0, Spectrum(5.0F), 0);
    film.drop_pass();
    CHECK(film.sums() == before);
    CHECK(film.passes() == 2);
    CHECK(film.nonfinite_samples() == 0);
    CHECK(film.frame_luminance().mean == doctest::Approx(3.0).epsilon(1e-5));
    film.begin_pass(make_pass_wavelengths(1, 2));
    for (int i = 0; i < film.pixels(); ++i) film.add(i, 0, Spectrum(9.0F));
    film.end_pass();
    const Film three = film_of_passes(3, 2, {2, 4, 9});
    CHECK(film.sums() == three.sums());
    CHECK(film.state().walk_differences == three.state().walk_differences);
    CHECK(film.state().other_light == three.state().other_light);
    CHECK(film.state().odd_other_light == three.state().odd_other_light);
    CHECK(film.state().brightest_pass == three.state().brightest_pass);
    CHECK(film.state().colour_sums == three.state().colour_sums);
}

TEST_CASE("pixels that are filled have the light of other pixels, and so have the means") {
    Film film(4, 1, {{"key", normalised_to_lumen(daylight_d65()), 0}}, kQuantum);
    film.set_regions({{"right", {2, 3}}});
    film.begin_pass(make_pass_wavelengths(1, 0));
    film.add(0, 0, Spectrum(1.0F));
    film.add(1, 0, Spectrum(100.0F));  // not whole, so it is replaced
    film.add(2, 0, Spectrum(2.0F));
    film.add(2, 0, 0, Spectrum(1.0F), 0);
    film.end_pass();
    film.fill_pixels({0, 0, 2, 2});
    for (const auto& [pixel, light] : {std::pair(0, 1.0), {1, 1.0}, {2, 3.0}, {3, 3.0}}) {
        CHECK(film.resolve(pixel).y == doctest::Approx(light).epsilon(1e-6));
    }
    CHECK(film.frame_luminance().mean == doctest::Approx(2.0).epsilon(1e-5));
    CHECK(film.region_luminance(0).mean == doctest::Approx(3.0).epsilon(1e-5));
    const FilmState& state = film.state();
    for (const QuantaPlane* plane : {&state.walk_differences,
                                     &state.other_light,
                                     &state.odd_other_light,
                                     &state.brightest_pass}) {
        CHECK((*plane)[1] == (*plane)[0]);
        CHECK((*plane)[3] == (*plane)[2]);
    }
    CHECK(state.colour_sums[4 + 3] == state.colour_sums[4 + 2]);  // Y of four pixels
    CHECK(std::abs(film.in_cd_m2(state.walk_differences[4 + 3])) ==
          doctest::Approx(1.0).epsilon(1e-5));
}

}  // namespace dapple
