#include <doctest/doctest.h>

#include "judge/judge_film.h"
#include "known_films.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr int kFaceX = 30;
constexpr int kFaceY = 20;

// A wall lit by "wash", and the face of "lamp" in one pixel of it, a million times as bright.
FilmRecord wall_with_lamp() {
    FilmRecord record = known_film(80, 60, {"wash", "lamp"}, [](int x, int y, size_t f) {
        if (f == 0) return 3.0;
        return x == kFaceX && y == kFaceY ? 3e6 : 1.0;
    });
    record.first_hits.lamp.assign(80 * 60, -1);
    record.first_hits.lamp[static_cast<size_t>(kFaceY * 80 + kFaceX)] = 1;
    return record;
}

}  // namespace

TEST_CASE("a lamp's own face counts in no share, no mean and no clipping") {
    FilmRecord record = wall_with_lamp();
    add_region(record, "around the lamp", 20, 10, 40, 30);
    const FilmStatistics s = judge_film(record);
    CHECK(s.fixtures[0].share == doctest::Approx(0.75));
    CHECK(s.fixtures[1].share == doctest::Approx(0.25));
    CHECK(s.luminance.mean == doctest::Approx(4));
    CHECK(s.stops.clipped_share == 0);
    CHECK(s.lamp_faces.pixels == 1);
    CHECK(s.lamp_faces.share > 0.99);
    CHECK(s.regions[0].pixels == 400 - 1);
    CHECK(*s.regions[0].mean_luminance == doctest::Approx(4));
    CHECK(*s.regions[0].pattern.texture_stops == doctest::Approx(0));
    for (const HotSpot& spot : s.hot_spots.list) CHECK(spot.fixture == "wash");
}

TEST_CASE("a region that shows only a lamp has no measures, and says so") {
    FilmRecord record = wall_with_lamp();
    add_region(record, "lamp", kFaceX, kFaceY, kFaceX + 1, kFaceY + 1);
    add_region(record, "nowhere", 0, 0, 0, 0);
    const FilmStatistics s = judge_film(record);
    CHECK(s.regions[0].pixels == 0);
    CHECK(s.regions[0].mean_luminance.why == "only a lamp's face");
    CHECK(s.regions[1].mean_luminance.why == kNoPixels);
    CHECK(s.regions[1].tones.clipped.why == kNoPixels);
}
