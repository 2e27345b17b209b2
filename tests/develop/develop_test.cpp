#include "develop/develop.h"

#include <doctest/doctest.h>

#include <cmath>

#include "develop/exposure.h"
#include "develop/lit_film.h"
#include "spectrum/white_balance.h"

using namespace dapple;

namespace {

Camera camera_at(float white_k) {
    Camera camera;
    camera.white_k = white_k;
    return camera;
}

// Luminance of a card of this reflectance in the light that the camera is metered for.
double card(const Camera& camera, double reflectance) {
    return reflectance * metered_illuminance(camera.f_number, camera.shutter, camera.iso) / kPi;
}

Rgb develop_card(const Camera& camera, const LightGroup& light, double reflectance) {
    const double y = card(camera, reflectance);
    const Film film = lit_film(2, 1, {light}, 3, [&](int, int, int) { return y; });
    return develop_linear(film, camera).at(1, 0);
}

// Rounding of floats (6e-8 each): the luminance put on the film and the developed pixels.
constexpr float kRounding = 1e-6F;

bool equal(const Rgb& a, const Rgb& b, float tolerance) {
    return glm::all(glm::lessThanEqual(glm::abs(a - b), Rgb(tolerance)));
}

}  // namespace

TEST_CASE("an 18 % card in the metered light reads 0.18") {
    const Camera camera = camera_at(5600);
    CHECK(equal(develop_card(camera, daylight_group("key", 0, 5600), 0.18), Rgb(0.18F), kRounding));
}

TEST_CASE("a perfect white in the metered light reads 1") {
    const Camera camera = camera_at(5600);
    CHECK(equal(develop_card(camera, daylight_group("key", 0, 5600), 1.0), Rgb(1.0F), kRounding));
}

TEST_CASE("light of the white_k colour develops neutral") {
    for (const float k : {4000.0F, 4300.0F, 5600.0F, 6504.0F, 10000.0F}) {
        CAPTURE(k);
        const Rgb c = develop_card(camera_at(k), daylight_group("key", 0, k), 0.5);
        CHECK(equal(c, Rgb(0.5F), kRounding));
    }
    for (const float k : {2700.0F, 3200.0F, 3500.0F}) {
        CAPTURE(k);
        const Rgb c = develop_card(camera_at(k), tungsten_group("key", 0, k), 0.5);
        // The camera's Planckian white is the observer's to five digits of chromaticity.
        CHECK(equal(c, Rgb(0.5F), 2e-4F));
    }
}

TEST_CASE("light warmer than white_k develops warm, cooler light cool") {
    const Rgb warm = develop_card(camera_at(4300), tungsten_group("key", 0, 3200), 0.5);
    CHECK(warm.r > warm.g);
    CHECK(warm.g > warm.b);
    const Rgb cool = develop_card(camera_at(4300), daylight_group("key", 0, 6500), 0.5);
    CHECK(cool.b > cool.g);
    CHECK(cool.g > cool.r);
}

TEST_CASE("the pictures of the light groups add up to the picture of all light") {
    const Camera camera = camera_at(4300);
    const Film film =
        lit_film(8,
                 4,
                 {tungsten_group("net.warm", 0, 2700), daylight_group("net.cool", 0, 6500)},
                 2,
                 [](int pixel, int group, int pass) { return 5.0 + pixel + 7 * group + pass; });
    const Picture all = develop_linear(film, camera);
    const Picture warm = develop_linear(film, camera, 0);
    const Picture cool = develop_linear(film, camera, 1);
    REQUIRE(all.width == 8);
    REQUIRE(all.height == 4);
    for (size_t i = 0; i < all.pixels.size(); ++i) {
        CHECK(equal(all.pixels[i], warm.pixels[i] + cool.pixels[i], kRounding));
    }
}
