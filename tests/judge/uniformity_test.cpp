#include "judge/uniformity.h"

#include <doctest/doctest.h>

#include "known_regions.h"

using namespace dapple;
using namespace dapple::test;

TEST_CASE("uniformity of the worked grid is 2/3") {
    // 300 … 600 lx, mean 450: EN 12464-1 definition, worked by hand.
    const double grid[3][3] = {{300, 400, 500}, {350, 450, 550}, {400, 500, 600}};
    const RegionImage region = region_of(24, 24, [&](int x, int y) { return grid[y / 8][x / 8]; });
    const auto u = measure_uniformity(region);
    REQUIRE(u);
    CHECK(*u == doctest::Approx(0.666667).epsilon(1e-6));
    CHECK(*u.error == 0);
}

TEST_CASE("uniformity counts only the pixels of the region") {
    RegionImage region = region_of(64, 32, [](int x, int) { return x < 32 ? 10.0 : 0.0; });
    CHECK(measure_uniformity(region).value == 0);
    for (int y = 0; y < 32; ++y) {
        for (int x = 32; x < 64; ++x) region.inside[region.index(x, y)] = 0;
    }
    CHECK(measure_uniformity(region).value == doctest::Approx(1));
}

TEST_CASE("noise does not make a wall uneven beyond the error that is stated") {
    RegionImage region = region_of(320, 320, [](int, int) { return 10.0; });
    add_noise(region, 0.3);
    const auto u = measure_uniformity(region);
    REQUIRE(u);
    // Cells of 20 × 20 px have an error of 0.3/20 = 0.015. The darkest of 256 is some 2.8 such
    // errors low.
    CHECK(*u.error == doctest::Approx(0.015).epsilon(0.1));
    CHECK(*u > 1 - 4.5 * 0.015);
}

TEST_CASE("a region too small for four cells, or unlit, has no uniformity, and says why") {
    const Measure small = measure_uniformity(region_of(9, 9, [](int, int) { return 1.0; }));
    CHECK_FALSE(small);
    CHECK(small.why.starts_with("too few pixels"));
    CHECK(measure_uniformity(region_of(32, 32, [](int, int) { return 0.0; })).why == "unlit");
}
