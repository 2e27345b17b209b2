#include "judge/point_reading.h"

#include <doctest/doctest.h>

#include "judge/known_films.h"

using namespace dapple;
using doctest::Approx;

namespace {

// 2 cd/m² by the key and 1 by the fill on a wall of albedo 0.5, 4 m in front of the lens.
FilmRecord lit_wall() {
    FilmRecord film = test::known_film(240, 160, {"key", "fill"}, [](int, int, size_t fixture) {
        return fixture == 0 ? 2.0 : 1.0;
    });
    film.luminance_stderr.assign(film.luminance.size(), 0.3F);
    film.camera.frame = {{1, 0, 0}, {0, 1, 0}, {0, 0, -1}};
    film.camera.position = {0, 1, 4};
    return film;
}

// Behind 50 mm, with 36 by 24 mm.
std::optional<PointReading> reading_at(const FilmRecord& film, int x, int y) {
    const Vec2 off((static_cast<float>(x) - 119.5F) / 240, (static_cast<float>(y) - 79.5F) / 160);
    return read_point(film, x, y, glm::normalize(Vec3(36 * off.x, -24 * off.y, -50)));
}

}  // namespace

TEST_CASE("a meter held on a matte wall reads pi times its luminance over its albedo") {
    const FilmRecord film = lit_wall();
    const auto reading = reading_at(film, 120, 80);
    REQUIRE(reading);
    const double white = white_luminance(film.camera);
    CHECK(white * reading->illuminance[0].g == Approx(3.14159265 * 2 / 0.5));
    CHECK(white * reading->illuminance[1].g == Approx(3.14159265 * 1 / 0.5));
    CHECK(white * reading->light[1].g == Approx(1));
    CHECK(reading->pixels == 25);
    CHECK(*reading->error == Approx(0.1));
    CHECK(reading->normal.z == 1);
}

TEST_CASE("the point is where the lens sees it") {
    const auto reading = reading_at(lit_wall(), 239, 0);
    REQUIRE(reading);
    // 36 by 24 mm behind 50 mm, 4 m away: the centre of the last pixel.
    CHECK(reading->position.x == Approx(4 * 0.018 / 0.05 * (1 - 1 / 240.0)));
    CHECK(reading->position.y == Approx(1 + 4 * 0.012 / 0.05 * (1 - 1 / 160.0)));
    CHECK(reading->position.z == Approx(0).epsilon(1e-6));
}

TEST_CASE("the patch keeps to its surface, and what is no surface has no reading") {
    FilmRecord film = lit_wall();
    for (size_t i = 0; i < film.first_hits.surface.size(); ++i) {
        if (i % 240 >= 120) film.first_hits.surface[i] = 1;
        if (i % 240 >= 200) film.first_hits.surface[i] = -1;
    }
    CHECK(reading_at(film, 119, 80)->pixels == 15);
    CHECK(!reading_at(film, 220, 80));
    film.first_hits.lamp.assign(film.first_hits.surface.size(), 0);
    CHECK(!reading_at(film, 50, 80));
}

TEST_CASE("after a single pass the error of a point is not known") {
    FilmRecord film = lit_wall();
    film.frame.covariances.clear();
    CHECK(!reading_at(film, 120, 80)->error);
}
