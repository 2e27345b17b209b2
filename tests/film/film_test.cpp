#include "film/film.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <vector>

#include "base/parallel.h"
#include "base/random.h"
#include "film/test_films.h"
#include "spectrum/chromaticity.h"
#include "spectrum/illuminants.h"
#include "spectrum/observer.h"
#include "spectrum/rgb_reflectance.h"
#include "spectrum/source_spectrum.h"

namespace dapple {

namespace {

struct Contribution {
    int pixel;
    int group;
    Spectrum throughput;
};

std::vector<Contribution> random_contributions(int count, int pixels, int groups) {
    RandomStream random(1, 0, 0, Purpose::kTest);
    std::vector<Contribution> all;
    for (int i = 0; i < count; ++i) {
        Contribution c{static_cast<int>(random.next() * static_cast<float>(pixels)),
                       static_cast<int>(random.next() * static_cast<float>(groups)),
                       Spectrum()};
        for (float& x : c.throughput.v) x = 10.0F * random.next() * random.next();
        all.push_back(c);
    }
    return all;
}

void check_same_chromaticity(const Xyz& a, const Xyz& b) {
    // The film adds floats, each rounded to 1e-7, eight in a sum.
    CHECK(std::abs(xy_of(a).x - xy_of(b).x) < 1e-6);
    CHECK(std::abs(xy_of(a).y - xy_of(b).y) < 1e-6);
}

}  // namespace

TEST_CASE("the film is the same to the bit in whatever order light is added") {
    const std::vector<Contribution> all = random_contributions(20000, 12, 2);
    Film forward(4, 3, warm_and_cool(), kQuantum);
    Film backward(4, 3, warm_and_cool(), kQuantum);
    forward.begin_pass(make_pass_wavelengths(1, 0));
    backward.begin_pass(make_pass_wavelengths(1, 0));
    for (const Contribution& c : all) forward.add(c.pixel, c.group, c.throughput);
    for (auto c = all.rbegin(); c != all.rend(); ++c) {
        backward.add(c->pixel, c->group, c->throughput);
    }
    forward.end_pass();
    backward.end_pass();
    CHECK(forward.sums() == backward.sums());
    const FilmSums sums = forward.sums();
    CHECK(std::accumulate(sums.begin(), sums.end(), int64_t{0}) > 0);
    CHECK(forward.frame_luminance().mean == backward.frame_luminance().mean);
}

TEST_CASE("the film is the same to the bit on one thread and on many") {
    const std::vector<Contribution> all = random_contributions(20000, 12, 2);
    const auto expose = [&](int threads) {
        const ThreadLimit limit(threads);
        Film film(4, 3, warm_and_cool(), kQuantum);
        for (uint32_t pass = 0; pass < 3; ++pass) {
            film.begin_pass(make_pass_wavelengths(1, pass));
            parallel_blocks(static_cast<int64_t>(all.size()), 16, [&](int64_t first, int64_t last) {
                for (int64_t i = first; i < last; ++i) {
                    const Contribution& c = all[static_cast<size_t>(i)];
                    film.add(c.pixel, c.group, c.throughput);
                }
            });
            film.end_pass();
        }
        return film;
    };
    const Film one = expose(1);
    const Film many = expose(0);
    CHECK(one.sums() == many.sums());
    for (int i = 0; i < one.pixels(); ++i) {
        CHECK(one.luminance_stderr(i) == many.luminance_stderr(i));
        CHECK(one.resolve(i) == many.resolve(i));
    }
}

TEST_CASE("a white surface has the exact colour of its light after two passes, and after one") {
    // A white surface has one throughput for all wavelengths, so the ratio correction is exact.
    for (const uint32_t passes : {1U, 2U, 3U}) {
        Film film(1, 1, warm_and_cool(), kQuantum);
        for (uint32_t pass = 0; pass < passes; ++pass) {
            film.begin_pass(make_pass_wavelengths(9, pass));
            for (int group = 0; group < 2; ++group) film.add(0, group, Spectrum(40.0F));
            film.end_pass();
        }
        Curve mix;
        for (int group = 0; group < 2; ++group) {
            const Curve& light = film.groups()[static_cast<size_t>(group)].spectrum;
            check_same_chromaticity(film.resolve(0, group), integrate_xyz(light));
            CHECK(film.resolve(0, group).y ==
                  doctest::Approx(40.0 * luminous_flux(light)).epsilon(1e-6));  // floats
            mix += light;
        }
        check_same_chromaticity(film.resolve(0), integrate_xyz(mix));
        const CctDuv at = cct_duv_of(film.resolve(0));
        CHECK(std::abs(at.cct_k - 4300) < 0.1);
    }
}

TEST_CASE("without the correction two passes would be visibly tinted") {
    // The 16 wavelengths drawn give the cool channel another colour.
    const LightGroup cool = warm_and_cool()[1];
    Xyz drawn(0.0);
    for (uint32_t pass = 0; pass < 2; ++pass) {
        const GroupColour c = make_group_colour(cool, make_pass_wavelengths(9, pass));
        drawn += Xyz(c.x.sum(), c.y.sum(), c.z.sum());
    }
    const Uv a = uv_1960(drawn);
    const Uv b = uv_1960(integrate_xyz(cool.spectrum));
    CHECK(std::hypot(a.u - b.u, a.v - b.v) > 0.001);  // a just visible step
}

TEST_CASE("a coloured surface approaches its exact colour as passes are added") {
    const Curve light = normalised_to_lumen(daylight_d65());
    const Rgb rgb(0.6F, 0.2F, 0.1F);
    const Xyz exact = kLuminousEfficacy * integrate_xyz(reflectance_curve(rgb) * light);
    // The error falls as one over the number of passes, as it does for the wavelengths alone. For a
    // steep red 0.09 / passes was measured.
    for (const uint32_t passes : {4U, 64U, 512U}) {
        Film film(1, 1, {{"key", light, 0}}, kQuantum);
        for (uint32_t pass = 0; pass < passes; ++pass) {
            const Wavelengths w = make_pass_wavelengths(2, pass);
            film.begin_pass(w);
            film.add(0, 0, sample_rgb_basis(w).lift(rgb));
            film.end_pass();
        }
        const Xyz error = glm::abs(film.resolve(0) - exact) / exact;
        CHECK(std::max({error.x, error.y, error.z}) < 0.12 / passes + 1e-5);  // 1 nm sum
    }
}

TEST_CASE("luminance adds up over walks, and is averaged over passes") {
    Film film(2, 1, {{"key", normalised_to_lumen(daylight_d65()), 0}}, kQuantum);
    for (uint32_t pass = 0; pass < 2; ++pass) {
        film.begin_pass(make_pass_wavelengths(1, pass));
        film.add(1, 0, Spectrum(3.0F));
        film.add(1, 0, Spectrum(pass == 0 ? 1.0F : 5.0F));
        film.end_pass();
    }
    CHECK(film.passes() == 2);
    // Passes of 4 and 8. One ratio corrects both, so their weights are equal within the scatter of
    // Y between the passes' wavelengths (1 %).
    CHECK(film.resolve(1).y == doctest::Approx(6.0).epsilon(0.01));
    CHECK(film.resolve(0).y == 0);
    CHECK(film.frame_luminance().mean == doctest::Approx(3.0).epsilon(1e-6));
}

TEST_CASE("the standard error of a pixel is that of its passes") {
    // Values 2, 4, 9: mean 5, sample variance 13, standard error sqrt(13/3). Each pass's luminance
    // is corrected for its own wavelengths, so the values are exact within the rounding of floats.
    const Film film = film_of_passes(2, 2, {2, 4, 9});
    for (int i = 0; i < 4; ++i) {
        CHECK(film.luminance_stderr(i) == doctest::Approx(std::sqrt(13.0 / 3.0)).epsilon(1e-5));
    }
    CHECK(film_of_passes(1, 1, {7}).luminance_stderr(0) == 0);
    // Only the rounding of floats (0.1 here) remains. Subtracting the squared mean must not
    // increase it.
    CHECK(film_of_passes(1, 1, {1e6F, 1e6F, 1e6F}).luminance_stderr(0) < 1.0);
}

TEST_CASE("the frame's mean and standard error come from the passes as a whole") {
    const Film film = film_of_passes(3, 2, {2, 4, 9});
    CHECK(film.frame_luminance().mean == doctest::Approx(5.0).epsilon(1e-6));
    CHECK(film.frame_luminance().stderr_of_mean ==
          doctest::Approx(std::sqrt(13.0 / 3.0)).epsilon(1e-5));
}

TEST_CASE("a region's standard error counts what its pixels have in common") {
    // Two pixels that vary together keep their error; two that vary against each other have none.
    // Adding pixel errors as if they were independent would give the same for both.
    Film film(4, 1, {{"key", normalised_to_lumen(daylight_d65()), 0}}, kQuantum);
    film.set_regions({{"together", {0, 1}}, {"against", {2, 3}}});
    const float swing[] = {1, -1, 2, -2};
    for (uint32_t pass = 0; pass < 4; ++pass) {
        film.begin_pass(make_pass_wavelengths(1, pass));
        film.add(0, 0, Spectrum(10 + swing[pass]));
        film.add(1, 0, Spectrum(10 + swing[pass]));
        film.add(2, 0, Spectrum(10 + swing[pass]));
        film.add(3, 0, Spectrum(10 - swing[pass]));
        film.end_pass();
    }
    // Values 11, 9, 12, 8: sample variance 10/3, standard error sqrt(10/12).
    const Film::MeanAndError together = film.region_luminance(0);
    const Film::MeanAndError against = film.region_luminance(1);
    CHECK(together.mean == doctest::Approx(10.0).epsilon(1e-6));
    CHECK(together.stderr_of_mean == doctest::Approx(std::sqrt(10.0 / 12.0)).epsilon(1e-5));
    CHECK(against.mean == doctest::Approx(10.0).epsilon(1e-6));
    CHECK(against.stderr_of_mean < 1e-5);       // floats
    CHECK(film.region_luminance(7).mean == 0);  // no such region
}

TEST_CASE("samples that are not finite are counted and leave the film as it was") {
    Film film(1, 1, {{"key", normalised_to_lumen(daylight_d65()), 0}}, kQuantum);
    film.begin_pass(make_pass_wavelengths(1, 0));
    film.add(0, 0, Spectrum(1.0F));
    const FilmSums before = film.sums();
    Spectrum bad(1.0F);
    bad[3] = std::numeric_limits<float>::quiet_NaN();
    film.add(0, 0, bad);
    film.add(0, 0, Spectrum(std::numeric_limits<float>::infinity()));
    film.add(0, 0, Spectrum(1e30F));  // finite, but more than the integers hold
    CHECK(film.sums() == before);
    CHECK(film.nonfinite_samples() == 3);
    film.end_pass();
    CHECK(film.resolve(0).y == doctest::Approx(1.0).epsilon(1e-6));
}

TEST_CASE("a spread splat is the same as its weights pixel by pixel, also beyond 32 bits") {
    const auto films = [] { return Film(12, 1, warm_and_cool(), kQuantum); };
    Film by_runs = films();
    Film by_pixels = films();
    for (Film* film : {&by_runs, &by_pixels}) film->begin_pass(make_pass_wavelengths(1, 0));
    const std::vector<PixelRun> runs{{0, 0}, {8, 0}};
    std::vector<RunWeights> weights(2);  // the last four are beyond the frame and stay 0
    const auto weight = [&](int i) -> auto& {
        return weights[i / 8].v[i % 8];
    };
    for (int i = 0; i < 12; ++i) weight(i) = 0x1p-4F * static_cast<float>(i % 3);
    // 2^29 quanta are 32 cd/m².
    for (const float value : {0.5F, 20.0F, 3000.0F, 20.0F}) {
        const Spectrum light(value);
        by_runs.add_spread({.runs = runs,
                            .weights = weights,
                            .first_group = 0,
                            .groups = 2,
                            .throughputs = {&light, 1}});
        for (int i = 0; i < 12; ++i) {
            for (int g = 0; g < 2; ++g) by_pixels.add(i, g, light * weight(i));
        }
    }
    const FilmSums a = by_runs.sums();
    const FilmSums b = by_pixels.sums();
    CHECK(*std::max_element(b.begin(), b.end()) > int64_t{1} << 31);
    for (size_t i = 0; i < a.size(); ++i) {
        // For each of four additions half a quantum and a float's rounding, 2^-24.
        CHECK(std::abs(static_cast<double>(a[i] - b[i])) <= 4 + 0x1p-22 * std::abs(double(b[i])));
    }
}

TEST_CASE("a group without light adds none and divides by nothing") {
    Film film(1, 1, {{"net.cool", Curve(0.0F), 0}}, kQuantum);
    film.begin_pass(make_pass_wavelengths(1, 0));
    film.add(0, 0, Spectrum(5.0F));
    film.end_pass();
    CHECK(film.resolve(0, 0) == Xyz(0.0));
    CHECK(film.nonfinite_samples() == 0);
}

TEST_CASE("an empty film is black") {
    const Film film(1, 1, warm_and_cool(), kQuantum);
    CHECK(film.resolve(0) == Xyz(0.0));
    CHECK(film.luminance_stderr(0) == 0);
    CHECK(film.frame_luminance().mean == 0);
}

}  // namespace dapple
