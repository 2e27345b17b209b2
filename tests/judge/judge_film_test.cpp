#include "judge/judge_film.h"

#include <doctest/doctest.h>

#include <cmath>

#include "develop/exposure.h"
#include "develop/lit_film.h"
#include "judge/known_films.h"

using namespace dapple;
using namespace dapple::test;

namespace {

Scene scene_with(const std::vector<std::string>& fixtures) {
    Scene scene;
    for (const std::string& name : fixtures) {
        scene.fixtures.emplace_back();
        scene.fixtures.back().name = name;
    }
    return scene;
}

// A wall of surface 0, 10 m away, that all pixels see.
FirstHits wall_seen(int width, int height) {
    const auto count = static_cast<size_t>(width) * static_cast<size_t>(height);
    FirstHits hits{width, height, {}, {}, {}, {}, {}};
    hits.albedo.assign(count, Rgb(0.5F));
    hits.normal.assign(count, Normal(0, 0, 1));
    hits.depth.assign(count, 10.0F);
    hits.surface.assign(count, 0);
    hits.footprint_m.assign(count, 0.01F);
    return hits;
}

SeenPoints points_of(const Film& film) {
    SeenPoints seen{film.width(), film.height(), {}, {}};
    seen.pixels.resize(static_cast<size_t>(film.pixels()));
    return seen;
}

FilmStatistics judged(const Film& film, const Scene& scene, const FirstHits& hits = {}) {
    const SeenPoints seen = points_of(film);
    return judge_film(make_film_record({.scene = scene,
                                        .film = film,
                                        .first_hits = hits,
                                        .meters = nullptr,
                                        .seen = &seen,
                                        .clean = nullptr,
                                        .run = {}}));
}

PixelSet rectangle(const std::string& name, int frame_width, int x0, int y0, int x1, int y1) {
    PixelSet set{name, {}};
    for (int y = y0; y < y1; ++y) {
        for (int x = x0; x < x1; ++x) set.pixels.push_back(y * frame_width + x);
    }
    return set;
}

}  // namespace

TEST_CASE("what the clean frame leaves out is told, as a share of the frame's light") {
    FilmRecord record = known_film(4, 4, {"key"}, [](int x, int y, size_t) {
        return x == 1 && y == 2 ? 60.0 : 4.0;  // 60 of 120 cd/m² in one pixel
    });
    CHECK_FALSE(judge_film(record).left_out_of_clean);
    record.clean = record.light;
    CHECK(*judge_film(record).left_out_of_clean == doctest::Approx(0).epsilon(1e-6));
    record.clean[2 * 4 + 1] *= 0.25F;
    CHECK(*judge_film(record).left_out_of_clean == doctest::Approx(0.375).epsilon(1e-5));
}

TEST_CASE("a fixture's share adds its warm and cool channel") {
    const Scene scene = scene_with({"net", "key", "spare"});
    const Film film = lit_film(4,
                               4,
                               {tungsten_group("net.warm", 0, 2700),
                                daylight_group("net.cool", 0, 6500),
                                tungsten_group("key", 1, 3200)},
                               2,
                               [](int, int group, int) { return group == 2 ? 10.0 : 15.0; });
    const FilmStatistics s = judged(film, scene);
    REQUIRE(s.fixtures.size() == 3);
    CHECK(s.fixtures[0].name == "net");
    CHECK(s.fixtures[0].mean_luminance == doctest::Approx(30).epsilon(1e-6));
    CHECK(s.fixtures[0].share == doctest::Approx(0.75).epsilon(1e-6));
    CHECK(s.fixtures[1].share == doctest::Approx(0.25).epsilon(1e-6));
    CHECK(s.fixtures[2].share == 0);  // switched off, but not forgotten
    CHECK(s.luminance.mean == doctest::Approx(40).epsilon(1e-6));
    CHECK(s.luminance.min == doctest::Approx(40).epsilon(1e-6));
}

TEST_CASE("light that no fixture sends out is listed by the name of its group") {
    const Film film =
        lit_film(2, 2, {daylight_group("sky", -1, 6500)}, 1, [](int, int, int) { return 1.0; });
    const FilmStatistics s = judged(film, scene_with({"key"}));
    REQUIRE(s.fixtures.size() == 2);
    CHECK(s.fixtures[1].name == "sky");
    CHECK(s.fixtures[1].share == doctest::Approx(1));
}

TEST_CASE("standard errors come from the spread over passes") {
    // Passes of 10 and 14 everywhere: mean 12, standard error √(8/2) = 2.
    const Film film = lit_film(32,
                               32,
                               {tungsten_group("key", 0, 3200)},
                               2,
                               [](int, int, int pass) { return pass == 0 ? 10.0 : 14.0; },
                               {rectangle("wall", 32, 8, 8, 24, 24)});
    const FilmStatistics s = judged(film, scene_with({"key"}));
    CHECK(*s.luminance.mean_stderr == doctest::Approx(2).epsilon(1e-6));
    REQUIRE(s.regions.size() == 1);
    CHECK(s.regions[0].name == "wall");
    CHECK(s.regions[0].pixels == 256);
    CHECK(*s.regions[0].mean_luminance.error == doctest::Approx(2).epsilon(1e-6));
    // The ratio correction gives the passes slightly different weights: a few per cent.
    CHECK(*s.regions[0].mean_luminance == doctest::Approx(12).epsilon(0.02));
}

TEST_CASE("a region's pattern is measured in its own pixels and on its own surface") {
    constexpr int kWidth = 160;
    constexpr int kHeight = 140;
    const Film film = lit_film(kWidth,
                               kHeight,
                               {tungsten_group("net", 0, 3200)},
                               2,
                               [](int pixel, int, int) {
                                   const int x = pixel % kWidth;
                                   return x < 32 ? 5.0 : (x % 6 < 3 ? 40.0 : 10.0);
                               },
                               {rectangle("plain", kWidth, 0, 0, 32, 128),
                                rectangle("broken", kWidth, 32, 0, 160, 128),
                                {"nothing", {}}});
    FirstHits hits = wall_seen(kWidth, kHeight);
    hits.footprint_m.clear();
    for (int i = 0; i < kWidth * kHeight; ++i) {
        hits.footprint_m.push_back(i % kWidth < 32 ? 0.5F : 0.01F);
    }
    const FilmStatistics s = judged(film, scene_with({"net"}), hits);
    REQUIRE(s.regions.size() == 3);
    REQUIRE(s.regions[0].pattern.texture_stops);
    CHECK(*s.regions[0].pattern.texture_stops < 1e-3);
    CHECK(*s.regions[0].uniformity == doctest::Approx(1).epsilon(1e-6));
    const auto& broken = s.regions[1].pattern;
    REQUIRE(broken.texture_stops);
    // Two stops apart, half and half, 3 px of 1 cm. Tolerances as in pattern_test.cpp, with some
    // four periods in a cell.
    CHECK(*broken.texture_stops == doctest::Approx(1).epsilon(0.1));
    REQUIRE(broken.patch_cm);
    CHECK(*broken.patch_cm == doctest::Approx(3).epsilon(0.1));
    CHECK(*broken.cover == doctest::Approx(0.5).epsilon(0.03));
    CHECK(s.regions[2].pixels == 0);
    CHECK(s.regions[2].pattern.texture_stops.why == "no pixels in the frame");
    CHECK_FALSE(s.regions[2].mean_luminance);
}

TEST_CASE("white luminance and stops are those of the camera") {
    Scene scene = scene_with({"key"});
    const double white = white_luminance(scene.camera);
    const Film film = lit_film(4, 1, {tungsten_group("key", 0, 3200)}, 1, [&](int pixel, int, int) {
        return white * std::exp2(1.0 - 3 * pixel);  // 1, -2, -5, -8 stops from white
    });
    const FilmStatistics s = judged(film, scene);
    CHECK(s.white_luminance == white);
    CHECK(s.stops.clipped_share == 0.25);
    CHECK(s.stops.deep_shadow_share == 0.25);
}
