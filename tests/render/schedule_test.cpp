// The numbers of walks and the blur of each pass.
#include "render/schedule.h"

#include <doctest/doctest.h>

#include <cmath>

#include "render/splat_layout.h"
#include "transport/soft_splat.h"

using namespace dapple;

TEST_CASE("the walks of a pixel are numbered through all passes without gaps") {
    for (const uint32_t usual : {1U, 3U, 8U}) {
        uint32_t next = 0;
        for (uint32_t pass = 0; pass < 20; ++pass) {
            const WalkNumbers numbers = numbers_in_pass(usual, pass);
            CHECK(numbers.first == next);
            CHECK(numbers.count == (pass == 0 ? (usual + 2) / 3 : usual));
            next += numbers.count;
        }
    }
}

TEST_CASE("the first pass has a third of the light walks, rounded up") {
    CHECK(light_walks_in_pass(3000, 0) == 1000);
    CHECK(light_walks_in_pass(3000, 1) == 3000);
    CHECK(light_walks_in_pass(1, 0) == 1);
    CHECK(light_walks_in_pass(0, 0) == 0);
}

TEST_CASE("blur shrinks with every pass, and is 0 if the first pass has none") {
    for (uint32_t pass = 0; pass < 1000; ++pass) {
        const SplatRadii here = splat_radii_of_pass(2.5, pass);
        const SplatRadii next = splat_radii_of_pass(2.5, pass + 1);
        CHECK(next.unknown < here.unknown);
        CHECK(next.least <= here.least);
        CHECK(next.most <= here.most);
        CHECK(merge_radius_factor(pass + 1) < merge_radius_factor(pass));
    }
    CHECK(splat_radii_of_pass(2.5, 1'000'000).unknown <
          0.11F * splat_radii_of_pass(2.5, 0).unknown);
    CHECK(splat_radii_of_pass(0, 0).unknown == 0);
    // No radius is larger than a splat has room for.
    CHECK(splat_radii_of_pass(8, 0).unknown <= SplatLayout::kMostRadius);
    CHECK(splat_radii_of_pass(8, 0).most <= SplatLayout::kMostRadius);
    CHECK(soft_splat_weight(0) == 1);
    CHECK(dispersion_limit(0, 0) == 0);
}

// The effective number of pixels (Σw)²/Σw² of the shares w = 1 - d²/r², summed pixel by pixel
// (E91).
TEST_CASE("a soft splat counts once, and an eighth for each further pixel of its disc") {
    const float radius = splat_radii_of_pass(8, 0).unknown;
    REQUIRE(radius > 10);
    double sum = 0;
    double squares = 0;
    for (int y = -40; y <= 40; ++y) {
        for (int x = -40; x <= 40; ++x) {
            const double w =
                std::max(0.0, 1 - (x * x + y * y) / static_cast<double>(radius * radius));
            sum += w;
            squares += w * w;
        }
    }
    const double pixels = sum * sum / squares;
    CHECK(soft_splat_weight(radius) == doctest::Approx(1 + (pixels - 1) / 8).epsilon(0.01));
}
