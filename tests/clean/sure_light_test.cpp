// Bright pixels that few passes have found. The films are made here, so all light is known.
#include <doctest/doctest.h>

#include "clean/clean_film.h"
#include "clean/spread_light.h"
#include "noisy_film.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr int kSureSide = 64;
constexpr int kMiddle = 32;
constexpr double kWallLight = 2;  // cd/m²
constexpr double kOverWall = 6;   // times that in one pixel, on the average of two passes

// A wall with noise of ±10 %, and a pixel in its middle that has the given light in each pass.
Film wall_with_pixel(int passes, const std::function<double(int pass)>& light) {
    return make_film(kSureSide, kSureSide, passes, [&](int x, int y, int pass) {
        const double noise = 0.9 + 0.2 * uniform(y * kSureSide + x, pass);
        return (x == kMiddle && y == kMiddle ? light(pass) : kWallLight) * noise;
    });
}

double middle_of(const Film& film, const SeenPoints& seen) {
    return luminance(clean_film(film, seen, kWhite), kMiddle, kMiddle);
}

// Nothing like the pixel in the middle is seen by any other.
SeenPoints wall_with_strange_pixel() {
    SeenPoints seen = plain_wall(kSureSide, kSureSide);
    seen.pixels[kMiddle * kSureSide + kMiddle].surface = 1;
    return seen;
}

}  // namespace

TEST_CASE("a bright pixel of an even wall is shown once more passes agree on it") {
    // Half of the passes have 0.6 times the light of the others, as noise can have.
    const auto light = [](int pass) {
        return kOverWall * kWallLight * (pass % 2 == 0 ? 0.75 : 1.25);
    };
    const Film two = wall_with_pixel(2, light);
    CHECK(two.resolve(kMiddle * kSureSide + kMiddle).y > 5 * kWallLight);
    CHECK(middle_of(two, plain_wall(kSureSide, kSureSide)) < 3 * kWallLight);
    const Film eight = wall_with_pixel(8, light);
    CHECK(middle_of(eight, plain_wall(kSureSide, kSureSide)) > 0.9 * kOverWall * kWallLight);
}

TEST_CASE("light of one pass is not shown where no other pixel is alike") {
    for (const double bright : {10.0, 100.0, 1000.0}) {
        const Film film =
            wall_with_pixel(5, [bright](int pass) { return pass == 3 ? bright : 0.1; });
        CAPTURE(bright);
        CHECK(film.resolve(kMiddle * kSureSide + kMiddle).y > 0.18 * bright);
        CHECK(middle_of(film, wall_with_strange_pixel()) < 1.2 * kWallLight);
    }
}

TEST_CASE("light that all passes have found is shown although no other pixel is alike") {
    const Film film = wall_with_pixel(5, [](int) { return 50.0; });
    CHECK(middle_of(film, wall_with_strange_pixel()) > 45);
}

TEST_CASE("light that is left out is added to the light around it, up to its limits") {
    Plane light(kSureSide, kSureSide, 2.0F);
    Plane left_out(kSureSide, kSureSide);
    left_out[kMiddle * kSureSide + kMiddle] = 3;  // below 0.1 % of 2 · 49²
    spread_light(left_out, light);
    double sum = 0;
    for (const float v : light.values) sum += static_cast<double>(v);
    CHECK(sum == doctest::Approx(2.0 * kSureSide * kSureSide + 3).epsilon(1e-6));  // sums of floats

    Plane bright(kSureSide, kSureSide);
    bright[kMiddle * kSureSide + kMiddle] = 1e6;
    Plane beside(kSureSide, kSureSide, 2.0F);
    spread_light(bright, beside);
    CHECK(beside[kMiddle * kSureSide + kMiddle] == doctest::Approx(2.002));
    for (float& v : bright.values) v = 1e6;
    spread_light(bright, beside);
    CHECK(beside[kMiddle * kSureSide + kMiddle] == doctest::Approx(2.002 * 1.02));
}
