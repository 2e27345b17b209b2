#include "film/merge_films.h"

#include <doctest/doctest.h>

#include <cmath>

#include "film/test_films.h"

using namespace dapple;

namespace {

// Pass p of the film adds `values[p]`; only the passes from `first` to before `end` are made.
Film film_of_part(const std::vector<float>& values, int first, int end) {
    Film film(3, 2, {{"key", normalised_to_lumen(daylight_d65()), 0}}, kQuantum);
    film.set_regions({{"left", {0, 3}}});
    film.set_first_pass(first);
    for (int p = first; p < end; ++p) {
        REQUIRE(film.next_pass() == p);
        film.begin_pass(make_pass_wavelengths(1, static_cast<uint32_t>(p)));
        for (int i = 0; i < film.pixels(); ++i) {
            film.add(i, 0, Spectrum(values[static_cast<size_t>(p)] + static_cast<float>(i)));
            film.add(0, 0, 0, Spectrum(values[static_cast<size_t>(p)]), i % 2);
        }
        film.end_pass();
    }
    return film;
}

}  // namespace

TEST_CASE("what is known of two parts of a film is what is known of the whole") {
    const std::vector<float> values = {3.1F, 0.2F, 7.7F, 1e-4F, 2.9F, 1e5F, 0.0F};
    const Film whole = film_of_part(values, 0, 7);
    FilmState late = film_of_part(values, 2, 7).state();
    const FilmState early = film_of_part(values, 0, 2).state();
    REQUIRE(add_film(late, early));
    Film joined = film_of_part(values, 0, 0);
    REQUIRE(joined.restore(late));
    CHECK(joined.sums() == whole.sums());
    CHECK(joined.next_pass() == 7);
    for (int i = 0; i < whole.pixels(); ++i) {
        CHECK(joined.resolve(i) == whole.resolve(i));
        CHECK(joined.luminance_stderr(i) == whole.luminance_stderr(i));
        CHECK(joined.without_brightest_pass(i).mean == whole.without_brightest_pass(i).mean);
    }
    CHECK(joined.state().brightest_pass == whole.state().brightest_pass);
    CHECK(joined.state().frame_passes == whole.state().frame_passes);
    CHECK(joined.state().region_passes == whole.state().region_passes);
    CHECK(joined.region_luminance(0).stderr_of_mean == whole.region_luminance(0).stderr_of_mean);
}

TEST_CASE("a film without passes can be added, and changes nothing") {
    const std::vector<float> values = {3, 1};
    const Film two = film_of_part(values, 0, 2);
    FilmState sum = two.state();
    FilmState none = film_of_part(values, 0, 0).state();
    none.region_passes.resize(1);
    CHECK(add_film(sum, none));
    CHECK(sum.sums == two.state().sums);
    CHECK(sum.region_passes == two.state().region_passes);
}

TEST_CASE("the spread over passes is exact where it is far smaller than the light") {
    // Differences of the size of a float's rounding, 1e-7 of the light. The difference of two
    // squares in doubles would be wrong by about 1e-8 of the light, here 3000 quanta.
    const Film film = film_of_passes(1, 1, {3000, 3000.001F, 2999.999F, 3000.002F});
    const std::vector<double>& passes = film.state().frame_passes;
    double mean = 0;
    for (const double y : passes) mean += y / 4;
    double squares = 0;
    for (const double y : passes) squares += (y - mean) * (y - mean);
    const double expected = std::sqrt(squares / (4 * 3));
    CHECK(expected > 100 * kQuantum);
    CHECK(std::abs(film.luminance_stderr(0) - expected) < kQuantum);  // each pass is rounded to one
}
