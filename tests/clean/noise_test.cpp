// Noise goes, patterns stay: how much of each.
#include <doctest/doctest.h>

#include "clean/noise_image.h"
#include "judge/pattern.h"
#include "noisy_film.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr int kSide = 192;

RegionImage whole_frame(const std::function<double(int)>& value_at,
                        const std::function<double(int)>& noise_at) {
    RegionImage region;
    region.width = region.height = kSide;
    region.floor = 0.01;
    for (int i = 0; i < kSide * kSide; ++i) {
        region.luminance.push_back(value_at(i));
        region.noise.push_back(noise_at(i));
        region.inside.push_back(1);
    }
    return region;
}

Measure texture(const Film& film) {
    const Plane noise = make_noise_image(film, plain_wall(kSide, kSide));
    return measure_pattern(whole_frame([&](int i) { return film.resolve(i).y; },
                                       [&](int i) { return noise.values[static_cast<size_t>(i)]; }))
        .texture_stops;
}

// The clean frame is measured as it is: without taking off any noise.
double texture(const CleanFrame& clean) {
    const auto pattern = measure_pattern(whole_frame(
        [&](int i) { return clean.total[static_cast<size_t>(i)].y; }, [](int) { return 0; }));
    REQUIRE(pattern.texture_stops);
    return *pattern.texture_stops;
}

Film white_noise_film(int passes) {
    return make_film(kSide, kSide, passes, [](int x, int y, int pass) {
        return 10 * white_noise(y * kSide + x, pass);
    });
}

// Stripes of a period and a contrast, under noise of standard deviation 1 in each pass.
Film stripes(double period_px, double contrast, int passes) {
    return make_film(kSide, kSide, passes, [=](int x, int y, int pass) {
        const double wave = std::sin(2 * kPi * x / period_px);
        return 10 * (1 + contrast * wave) * white_noise(y * kSide + x, pass);
    });
}

// The stripes' contrast, by projection on the known wave.
double contrast_of(const CleanFrame& clean, double period_px) {
    double sum = 0;
    for (int y = 0; y < kSide; ++y) {
        for (int x = 0; x < kSide; ++x) {
            sum += 2 * std::sin(2 * kPi * x / period_px) * (luminance(clean, x, y) / 10 - 1);
        }
    }
    return sum / (kSide * kSide);
}

}  // namespace

TEST_CASE("even light under independent noise becomes even" * doctest::test_suite("figures")) {
    const SeenPoints seen = plain_wall(kSide, kSide);
    for (const int passes : {1, 2, 3, 4, 16}) {
        const Film film = white_noise_film(passes);
        const CleanFrame clean = clean_film(film, seen, kWhite);
        // Five levels average some thousand pixels where every link is whole. Few passes weaken
        // links at random.
        CHECK(relative_error(clean, 10) < 0.16 * relative_error(film, 10));
    }
}

TEST_CASE("even light made of discs becomes even" * doctest::test_suite("figures")) {
    const SeenPoints seen = plain_wall(kSide, kSide);
    for (const int passes : {1, 2, 3, 4, 16}) {
        // A disc covers 113 px and a pixel is in 8 discs.
        const Film film = make_film_of_discs(kSide, kSide, passes, 3000, 6, 10);
        const CleanFrame clean = clean_film(film, seen, kWhite);
        // The noise of a disc's 113 pixels is one number, and the levels average some ten discs.
        CHECK(relative_error(clean, 10) < 0.5 * relative_error(film, 10));
    }
}

TEST_CASE("noise does not read as texture, on the film or on the clean frame" *
          doctest::test_suite("figures")) {
    const SeenPoints seen = plain_wall(kSide, kSide);
    const Film white = white_noise_film(64);
    CHECK(*texture(white) < 0.02);
    CHECK(*texture(white) <= 3 * *texture(white).error);
    CHECK(texture(clean_film(white, seen, kWhite)) < 0.02);
    // Discs are noise that pixels share.
    const Film discs = make_film_of_discs(kSide, kSide, 64, 3000, 6, 10);
    CHECK(*texture(discs) <= 3 * *texture(discs).error);
    CHECK(*texture(discs).error < 0.1);
    CHECK(texture(clean_film(discs, seen, kWhite)) < 0.02);
}

TEST_CASE("the noise image has the film's noise") {
    const SeenPoints seen = plain_wall(kSide, kSide);
    for (const int passes : {1, 2, 3, 8}) {
        for (const bool discs : {false, true}) {
            const Film film = discs ? make_film_of_discs(kSide, kSide, passes, 3000, 6, 10)
                                    : white_noise_film(passes);
            const Plane noise = make_noise_image(film, seen);
            double sum = 0;
            for (const float v : noise.values) sum += static_cast<double>(v * v);
            const double deviation = std::sqrt(sum / kSide / kSide) / 10;
            // The discs' noise has some 300 independent values, so it is known to 4 %; 10 % are 2.5
            // of that.
            CHECK(deviation == doctest::Approx(relative_error(film, 10)).epsilon(0.1));
        }
    }
}

TEST_CASE("a ramp has no stairs") {
    const Film film = make_film(kSide, kSide, 8, [](int x, int y, int pass) {
        return (5 + 0.1 * x) * (0.7 + 0.6 * uniform(y * kSide + x, pass));
    });
    const CleanFrame clean = clean_film(film, plain_wall(kSide, kSide), kWhite);
    for (int x = 24; x < kSide - 24; ++x) {
        double mean = 0;
        for (int y = 24; y < kSide - 24; ++y) mean += luminance(clean, x, y) / (kSide - 48);
        // A column of the film is known to 0.5 %.
        REQUIRE(mean == doctest::Approx(5 + 0.1 * x).epsilon(0.015));
    }
}

TEST_CASE("stripes stay where the passes can tell them from noise" *
          doctest::test_suite("figures")) {
    // With 16 passes the film's noise is 0.25, half of the stripes' contrast.
    const SeenPoints seen = plain_wall(kSide, kSide);
    for (const double period_px : {4.0, 8.0, 16.0, 32.0}) {
        const double kept =
            contrast_of(clean_film(stripes(period_px, 0.5, 16), seen, kWhite), period_px) / 0.5;
        MESSAGE("period ", period_px, " px: kept ", kept);
        CHECK(kept > 0.88);
        CHECK(kept < 1.05);
    }
}

TEST_CASE("the more passes, the more of faint stripes stays" * doctest::test_suite("figures")) {
    const SeenPoints seen = plain_wall(kSide, kSide);
    double last = 0;
    for (const int passes : {4, 16, 64, 256}) {
        const double kept = contrast_of(clean_film(stripes(8, 0.2, passes), seen, kWhite), 8) / 0.2;
        MESSAGE("noise ", 1 / std::sqrt(passes), ": kept ", kept);
        CHECK(kept > last);
        last = kept;
    }
    CHECK(last > 0.97);
}

TEST_CASE("the clean frame is within two of its estimated errors of the truth") {
    const SeenPoints seen = plain_wall(kSide, kSide);
    for (const int passes : {2, 4, 16}) {
        const CleanFrame clean = clean_film(stripes(16, 0.4, passes), seen, kWhite);
        int within = 0;
        for (int i = 0; i < kSide * kSide; ++i) {
            const double truth = 10 * (1 + 0.4 * std::sin(2 * kPi * (i % kSide) / 16));
            const double error =
                static_cast<double>(clean.luminance_stderr[static_cast<size_t>(i)]);
            within += std::abs(clean.total[static_cast<size_t>(i)].y - truth) < 2 * error ? 1 : 0;
        }
        MESSAGE("passes ", passes, ": within ", static_cast<double>(within) / (kSide * kSide));
        // 95 % would be right. The error is a mean over 13 × 13 pixels, and a stripe's blur is not
        // even there.
        CHECK(within > 0.85 * kSide * kSide);
        CHECK(typical_error_percent(clean) < 100.0 / std::sqrt(passes));
    }
}
