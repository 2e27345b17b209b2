#include "clean/rims.h"

#include <doctest/doctest.h>

#include "noisy_film.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr int kRimWidth = 16;
constexpr int kRimHeight = 8;
constexpr int kRim = 8;  // column whose pixels show 30 % of the left surface, 70 % of the right

SeenPoints two_walls() {
    SeenPoints seen = plain_wall(kRimWidth, kRimHeight);
    for (int i = 0; i < kRimWidth * kRimHeight; ++i) {
        if (i % kRimWidth >= kRim) seen.pixels[static_cast<size_t>(i)].surface = 1;
        if (i % kRimWidth == kRim) seen.shared.push_back({i, {0, 0, 0, 0.3F, 0.7F, 0, 0, 0, 0}});
    }
    return seen;
}

// The left wall has 1, the right wall 5.
Plane light_of_walls() {
    return make_plane(kRimWidth, kRimHeight, [](size_t i) {
        const auto x = static_cast<int>(i) % kRimWidth;
        return x < kRim ? 1.0 : x > kRim ? 5.0 : 0.3 * 1 + 0.7 * 5;
    });
}

float sum_of(const Plane& plane) {
    float sum = 0;
    for (const float v : plane.values) sum += v;
    return sum;
}

}  // namespace

TEST_CASE("a pixel at a rim is divided among its surfaces and put together again") {
    const Plane light = light_of_walls();
    const Rims rims(two_walls(), light, Plane(kRimWidth, kRimHeight, 0.1F));
    const Plane divided = rims.divided(light);
    for (int i = 0; i < kRimWidth * kRimHeight; ++i) {
        const auto k = static_cast<size_t>(i);
        CHECK(divided[k] / rims.areas()[k] == doctest::Approx(i % kRimWidth < kRim ? 1 : 5));
    }
    CHECK(sum_of(divided) == doctest::Approx(sum_of(light)));
    const Plane per_area =
        make_plane(kRimWidth, kRimHeight, [&](size_t i) { return divided[i] / rims.areas()[i]; });
    const Plane joined = rims.joined(per_area);
    for (size_t i = 0; i < light.size(); ++i) CHECK(joined[i] == doctest::Approx(light[i]));
}

TEST_CASE("a pixel that its shares do not explain is left alone") {
    Plane light = light_of_walls();
    light[3 * kRimWidth + kRim] = 2;  // 3.8 expected
    for (const float noise : {0.1F, 2.0F}) {
        const Rims rims(two_walls(), light, Plane(kRimWidth, kRimHeight, noise));
        const bool explained = noise > 1;
        CHECK((rims.alone()[3 * kRimWidth + kRim] == 0) == explained);
        CHECK(sum_of(rims.divided(light)) == doctest::Approx(sum_of(light)));
    }
}

TEST_CASE("surfaces are alike if a pixel's neighbours could be one surface") {
    const SeenPoint a{Point(0), 0.01F, Normal(0, 0, 1), 3, Rgb(0.5F)};
    SeenPoint b = a;
    CHECK(likeness(a, b) == 1);
    b.position = Point(0.02F, 0, 0);
    CHECK(likeness(a, b) == 1);
    b.position = Point(0.02F, 0, 0.02F);
    CHECK(likeness(a, b) == 0);
    b = a;
    b.normal = Normal(0, 1, 0);
    CHECK(likeness(a, b) == 0);
    b = a;
    b.surface = 4;
    CHECK(likeness(a, b) == 0);
    b.surface = -1;
    CHECK(likeness(b, b) == 0);
}
