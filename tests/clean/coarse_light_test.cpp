// Light of an earlier frame is added to that of a later one.
#include "clean/coarse_light.h"

#include <doctest/doctest.h>

using namespace dapple;

namespace {

constexpr int kColumns = 9, kRows = 5;

SeenPoints wall_with(const std::vector<int>& other_surface) {
    SeenPoints seen{kColumns, kRows, {}, {}};
    for (int i = 0; i < kColumns * kRows; ++i) {
        seen.pixels.push_back({.position = Point(i % kColumns, i / kColumns, 0),
                               .footprint_m = 1,
                               .normal = Normal(0, 0, 1),
                               .surface = 0,
                               .albedo = Rgb(0.5F)});
    }
    for (const int i : other_surface) seen.pixels[static_cast<size_t>(i)].surface = 7;
    return seen;
}

// The light of each pixel is `first` and its number.
CoarseLight light_from(float first) {
    const Plane plane =
        make_plane(kColumns, kRows, [&](size_t i) { return first + static_cast<float>(i); });
    return {{plane, plane, plane}, plane, {plane, plane, plane}, {plane, plane, plane}};
}

}  // namespace

TEST_CASE("kept light is added pixel by pixel where the same is seen") {
    CoarseLight light = light_from(0);
    add_kept_light({light_from(100), wall_with({})}, wall_with({}), light);
    for (size_t i = 0; i < size_t{kColumns} * kRows; ++i) {
        const float wanted = 100 + 2 * static_cast<float>(i);
        REQUIRE(light.on_surfaces[2][i] == wanted);
        REQUIRE(light.luminance_on_surfaces[i] == wanted);
        REQUIRE(light.by_pixel[1][i] == wanted);
        REQUIRE(light.held[0][i] == wanted);
    }
}

TEST_CASE("where a lamp's body stood, the light comes from the wall beside it") {
    const int stood = 2 * kColumns + 4;
    CoarseLight light = light_from(0);
    CoarseLight kept = light_from(0);
    kept.on_surfaces[0][stood] = 9000;  // of the body, not of the wall
    add_kept_light({kept, wall_with({stood})}, wall_with({}), light);
    // The mean of the eight around it is that of the pixel in a light that rises evenly.
    CHECK(light.on_surfaces[0][stood] == doctest::Approx(2.0 * stood));
}

TEST_CASE("a pixel with nothing alike around it keeps its own light") {
    const int now = 2 * kColumns + 4;
    CoarseLight light = light_from(0);
    add_kept_light({light_from(0), wall_with({})}, wall_with({now}), light);
    CHECK(light.on_surfaces[0][now] == 2.0F * now);
}
