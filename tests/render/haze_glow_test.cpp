// Light that is spread over neighbouring pixels: the glow of haze.
#include <doctest/doctest.h>

#include <cmath>
#include <numeric>

#include "base/random.h"
#include "render/schedule.h"
#include "render/spread_light.h"

using namespace dapple;

namespace {

constexpr int kWide = 96;
constexpr int kHigh = 64;

float all_alike(size_t, size_t) {
    return 1;
}

// Between 0.1 and 1, at random.
Plane random_plane(uint64_t seed) {
    return make_plane(kWide, kHigh, [&](size_t i) {
        return 0.1F + 0.9F * static_cast<float>(mix_bits(i, seed) >> 40U) * 0x1p-24F;
    });
}

double sum_of(const Plane& plane) {
    return std::accumulate(plane.values.begin(), plane.values.end(), 0.0);
}

Plane spread(const LightSpread& by, Plane light) {
    Plane sum(kWide, kHigh);
    by.move(light, sum);
    CHECK(sum_of(light) == 0);
    return sum;
}

}  // namespace

TEST_CASE("spreading loses no light, and light that follows the amounts stays as it is") {
    const Plane amounts = random_plane(1);
    const Plane light = random_plane(2);
    for (const float deviation : {0.0F, 0.5F, 1.5F, 6.0F, 20.0F}) {
        const LightSpread by(amounts, deviation, all_alike);
        // Floats are rounded to 6e-8, at random.
        CHECK(sum_of(spread(by, light)) == doctest::Approx(sum_of(light)).epsilon(1e-6));
        const Plane even = spread(by, amounts);
        for (size_t i = 0; i < even.size(); ++i) {
            REQUIRE(even[i] == doctest::Approx(amounts[i]).epsilon(1e-5));
        }
    }
}

TEST_CASE("a bright pixel is spread with the variance that is asked for") {
    const Plane amounts(kWide, kHigh, 0.5F);
    const int middle = kHigh / 2 * kWide + kWide / 2;
    for (const float deviation : {0.4F, 0.9F, 1.5F, 3.0F, 5.0F}) {
        Plane light(kWide, kHigh);
        light[static_cast<size_t>(middle)] = 1;
        const Plane sum = spread(LightSpread(amounts, deviation, all_alike), light);
        double variance = 0;
        for (int y = 0; y < kHigh; ++y) {
            for (int x = 0; x < kWide; ++x) {
                variance += sum.row(y)[x] * std::pow(x - kWide / 2, 2);
            }
        }
        // Rounding alone; no light reaches the edge of the frame.
        CHECK(variance == doctest::Approx(deviation * deviation).epsilon(1e-3));
    }
}

TEST_CASE("light does not spread between pixels that are not alike") {
    const Plane amounts = random_plane(3);
    const auto same_side = [](size_t i, size_t j) {
        return (i % kWide < kWide / 2) == (j % kWide < kWide / 2) ? 1.0F : 0.0F;
    };
    Plane left(kWide, kHigh);
    for (int y = 0; y < kHigh; ++y) std::fill_n(left.row(y), kWide / 2, 1.0F);
    const Plane sum = spread(LightSpread(amounts, 8, same_side), left);
    for (int y = 0; y < kHigh; ++y) {
        for (int x = kWide / 2; x < kWide; ++x) REQUIRE(sum.row(y)[x] == 0);
    }
    CHECK(sum_of(sum) == doctest::Approx(sum_of(left)).epsilon(1e-6));
}

TEST_CASE("the spread of glow shrinks with the passes, and without blur there is none") {
    for (const uint32_t pass : {0U, 1U, 9U, 99U}) {
        const GlowSpread now = glow_spread_of_pass(2.5, 960, pass);
        const GlowSpread later = glow_spread_of_pass(2.5, 960, 64 * (pass + 1) - 1);
        // The sixth root of 64.
        CHECK(later.near == doctest::Approx(now.near / 2));
        CHECK(later.far == doctest::Approx(now.far / 2));
        CHECK(now.near < now.far);
        CHECK(glow_spread_of_pass(0, 960, pass).far == 0);
    }
}
