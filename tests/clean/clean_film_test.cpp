#include "clean/clean_film.h"

#include <doctest/doctest.h>

#include "base/parallel.h"
#include "noisy_film.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr int kWidth = 128;
constexpr int kHeight = 96;

// Stripes of light under noise on a wall with a chequered reflectance and a rim down the middle.
Film striped_film(int passes, std::vector<LightGroup> groups = one_group()) {
    Film film(kWidth, kHeight, std::move(groups), 0x1p-24);
    for (int pass = 0; pass < passes; ++pass) {
        film.begin_pass(make_pass_wavelengths(1, static_cast<uint32_t>(pass)));
        for (int g = 0; g < static_cast<int>(film.groups().size()); ++g) {
            for (int i = 0; i < film.pixels(); ++i) {
                const double light = (i % kWidth) / 8 % 2 == g % 2 ? 9 : 3;
                const double value = light * white_noise(i + 100000 * g, pass);
                film.add(i, g, Spectrum(static_cast<float>(value)));
            }
        }
        film.end_pass();
    }
    return film;
}

SeenPoints wall_with_rim() {
    SeenPoints seen = plain_wall(kWidth, kHeight);
    for (int i = 0; i < kWidth * kHeight; ++i) {
        SeenPoint& pixel = seen.pixels[static_cast<size_t>(i)];
        if ((i % kWidth / 4 + i / kWidth / 4) % 2 == 0) pixel.albedo = Rgb(0.8F, 0.3F, 0.1F);
        if (i % kWidth >= kWidth / 2) pixel.surface = 1;
        if (i % kWidth == kWidth / 2) seen.shared.push_back({i, {0, 0, 0, 0.4F, 0.6F, 0, 0, 0, 0}});
    }
    return seen;
}

}  // namespace

TEST_CASE("the clean frame has the light of the film") {
    // The noise of a pass is as strong as its light. In few passes some of that looks like specks,
    // which are not shown. Else floats are rounded to 6e-8, at random.
    for (const auto& [passes, most_lost] :
         {std::pair{1, 1e-6}, {2, 0.006}, {3, 0.006}, {4, 0.001}, {9, 2e-5}}) {
        const Film film = striped_film(passes);
        const CleanFrame clean = clean_film(film, wall_with_rim(), kWhite);
        CHECK(sum_of(clean) == doctest::Approx(sum_of(film)).epsilon(most_lost));
    }
}

TEST_CASE("the layers of the light groups add up to the clean frame") {
    std::vector<LightGroup> groups = one_group();
    groups.push_back({"fill", normalised_to_lumen(planck(2856)), 1});
    const Film film = striped_film(4, groups);
    const CleanFrame clean = clean_film(film, wall_with_rim(), kWhite, true);
    REQUIRE(clean.layers.size() == 2);
    for (size_t i = 0; i < clean.total.size(); ++i) {
        const Xyz sum = clean.layers[0][i] + clean.layers[1][i];
        REQUIRE(glm::length(sum - clean.total[i]) < 1e-5 * glm::length(sum));
    }
}

TEST_CASE("one, two and three threads make the same clean frame") {
    const Film film = striped_film(3);
    const SeenPoints seen = wall_with_rim();
    std::vector<CleanFrame> frames;
    for (const int threads : {1, 2, 3}) {
        const ThreadLimit limit(threads);
        frames.push_back(clean_film(film, seen, kWhite));
    }
    for (const CleanFrame& frame : frames) {
        CHECK(frame.total == frames.front().total);
        CHECK(frame.luminance_stderr == frames.front().luminance_stderr);
    }
}

TEST_CASE("a film without noise stays as it is") {
    const Film film = make_film(kWidth, kHeight, 3, [](int x, int y, int) {
        return 5 + 4 * std::sin(0.7 * x) + 3 * std::sin(0.4 * y);
    });
    const CleanFrame clean = clean_film(film, plain_wall(kWidth, kHeight), kWhite);
    for (int i = 0; i < film.pixels(); ++i) {
        REQUIRE(clean.total[static_cast<size_t>(i)].y ==
                doctest::Approx(film.resolve(i).y).epsilon(1e-4));
    }
}

TEST_CASE("the pattern of a reflectance stays under noise") {
    SeenPoints seen = plain_wall(kWidth, kHeight);
    for (int i = 0; i < kWidth * kHeight; ++i) {
        seen.pixels[static_cast<size_t>(i)].albedo = Rgb(i % 2 == 0 ? 0.2F : 0.8F);
    }
    const Film film = make_film(kWidth, kHeight, 4, [](int x, int y, int pass) {
        return (x % 2 == 0 ? 2 : 8) * white_noise(y * kWidth + x, pass);
    });
    const CleanFrame clean = clean_film(film, seen, kWhite);
    double dark = 0;
    double bright = 0;
    for (int i = 0; i < film.pixels(); ++i) {
        (i % 2 == 0 ? dark : bright) += clean.total[static_cast<size_t>(i)].y;
    }
    // Both means are of 6144 pixels with four passes each: 0.6 %.
    CHECK(bright / dark == doctest::Approx(4).epsilon(0.03));
    // Within one kind of pixel little noise is left.
    double spread = 0;
    for (int i = 0; i < film.pixels(); i += 2) {
        spread += std::pow(clean.total[static_cast<size_t>(i)].y / 2 - 1, 2);
    }
    CHECK(std::sqrt(2 * spread / film.pixels()) < 0.08);  // 0.5 on the film
}

TEST_CASE("a speck of one pass is spread, and its light stays") {
    const auto light = [](int x, int y, int pass) {
        const bool is_speck = x == 60 && y == 40 && pass == 5;
        return is_speck ? 500 : 10 * white_noise(y * kWidth + x, pass);
    };
    const Film film = make_film(kWidth, kHeight, 12, light);
    const CleanFrame clean = clean_film(film, plain_wall(kWidth, kHeight), kWhite);
    CHECK(film.resolve(40 * kWidth + 60).y > 45);
    CHECK(luminance(clean, 60, 40) < 15);
    CHECK(sum_of(clean) == doctest::Approx(sum_of(film)).epsilon(1e-6));
}

TEST_CASE("specks that are too bright to be spread are not shown, and the rest keeps its light") {
    // A row of them, as from one long footprint, and one that two passes have found.
    const auto is_speck = [](int x, int y, int pass) {
        const bool in_row = y == 40 && x >= 60 && x < 68 && pass == 5;
        const bool of_two = y == 20 && x == 30 && (pass == 2 || pass == 9);
        return in_row || of_two;
    };
    const auto wall = [](int x, int y, int pass) { return 10 * white_noise(y * kWidth + x, pass); };
    const Film film = make_film(kWidth, kHeight, 12, [&](int x, int y, int pass) {
        return is_speck(x, y, pass) ? 100000 : wall(x, y, pass);
    });
    const Film without = make_film(kWidth, kHeight, 12, wall);
    const CleanFrame clean = clean_film(film, plain_wall(kWidth, kHeight), kWhite);
    CHECK(film.resolve(40 * kWidth + 60).y > 8000);
    for (const auto& [x, y] : {std::pair{60, 40}, {64, 40}, {67, 40}, {30, 20}}) {
        CHECK(luminance(clean, x, y) < 40);
        CHECK(luminance(clean, x, y + 2) < 15);
    }
    CHECK(sum_of(clean) == doctest::Approx(sum_of(without)).epsilon(0.005));
}

TEST_CASE("a highlight of one pixel that every pass has found stays") {
    for (const double highlight : {30.0, 100.0, 10000.0}) {
        const auto light = [&](int x, int y, int pass) {
            const double noise = 0.9 + 0.2 * uniform(y * kWidth + x, pass);
            return (x == 60 && y == 40 ? highlight : 2) * noise;
        };
        const Film film = make_film(kWidth, kHeight, 12, light);
        const CleanFrame clean = clean_film(film, plain_wall(kWidth, kHeight), kWhite);
        CHECK(luminance(clean, 60, 40) > 0.8 * highlight);
    }
}
