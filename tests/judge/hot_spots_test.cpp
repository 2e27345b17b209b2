#include "judge/hot_spots.h"

#include <doctest/doctest.h>

#include <cmath>

#include "judge/judge_film.h"
#include "known_films.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// A dim wall of 240 × 160 px with a bright patch of "net" at 180 … 200, 40 … 60, a weaker one at
// 20 … 40, 120 … 140, and a figure in the middle that is brighter than either.
FilmRecord wall_with_patches(double white) {
    const auto in = [](int x, int y, int x0, int y0) {
        return x >= x0 && x < x0 + 20 && y >= y0 && y < y0 + 20;
    };
    FilmRecord record = known_film(240, 160, {"wash", "net"}, [&](int x, int y, size_t f) {
        if (f == 0) return 0.01 * white;
        if (in(x, y, 110, 70)) return 5 * white;
        if (in(x, y, 180, 40)) return 0.71 * white;
        return in(x, y, 20, 120) ? 0.35 * white : 0.0;
    });
    record.surfaces.push_back("skin");
    put_surface(record, 1, Normal(0, 0, 1), 0.5F, {110, 70, 130, 90});
    return record;
}

}  // namespace

TEST_CASE("hot spots are the brightest places outside the figure, in order, with their fixture") {
    const double white = white_luminance(Camera{});
    const FilmStatistics s = judge_film(wall_with_patches(white));
    REQUIRE(s.hot_spots.list.size() == 3);
    const HotSpot& first = s.hot_spots.list[0];
    CHECK(first.x > 180);
    CHECK(first.x < 200);
    CHECK(first.y > 40);
    CHECK(first.y < 60);
    CHECK(first.where == "upper right");
    CHECK(first.fixture == "net");
    CHECK(first.surface == "wall");
    CHECK(first.share == doctest::Approx(71.0 / 72).epsilon(1e-4));
    CHECK(*first.stops == doctest::Approx(2));  // 0.72 of white is four times 0.18
    CHECK(s.hot_spots.list[1].where == "lower left");
    CHECK(*s.hot_spots.list[1].stops == doctest::Approx(1));
    CHECK(s.hot_spots.list[2].fixture == "wash");
}

TEST_CASE("a speck of noise is no hot spot") {
    const double white = white_luminance(Camera{});
    FilmRecord record = wall_with_patches(white);
    for (int y = 10; y < 12; ++y) {
        for (int x = 10; x < 12; ++x) {
            const auto i = static_cast<size_t>(y * 240 + x);
            record.luminance[i] = static_cast<float>(50 * white);
            record.noise[i] = static_cast<float>(50 * white);  // of one half of the walks only
        }
    }
    const FilmStatistics s = judge_film(record);
    CHECK(s.hot_spots.list[0].where == "upper right");
}
