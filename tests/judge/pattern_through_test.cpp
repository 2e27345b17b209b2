#include "judge/pattern_through.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "known_regions.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// The region with only the pixels left of `x` inside.
RegionImage left_of(RegionImage region, int x) {
    for (int i = 0; i < static_cast<int>(region.inside.size()); ++i) {
        if (i % region.width >= x) region.inside[static_cast<size_t>(i)] = 0;
    }
    return region;
}

}  // namespace

TEST_CASE("stripes outside the light through the glass are no texture of it (E169)") {
    const RegionImage region = region_of(240, 160, [](int x, int y) {
        return x < 120 ? stripes(4, 8, 1)(x, y) : stripes(6, 12, 5)(x, y);
    });
    const RegionImage lit = left_of(region, 120);
    const Pattern alone = measure_pattern(lit);
    const Pattern through = measure_pattern_through(region, lit);
    REQUIRE(through.texture_stops);
    CHECK(*through.texture_stops == doctest::Approx(*alone.texture_stops * 0.5));
    CHECK(*through.texture_stops < 0.5 * *measure_pattern(region).texture_stops);
    CHECK(*through.cover == doctest::Approx(0.5 * *alone.cover));
    CHECK(*through.patch_px == doctest::Approx(*alone.patch_px));
}

TEST_CASE("the same pattern over more of the region is more texture and more cover") {
    const RegionImage region = region_of(240, 160, stripes(4, 8, 1));
    double texture = 0;
    double cover = 0;
    for (const int x : {48, 96, 192, 240}) {
        CAPTURE(x);
        const Pattern p = measure_pattern_through(region, left_of(region, x));
        CHECK(*p.texture_stops > texture);
        CHECK(*p.cover > cover);
        texture = *p.texture_stops;
        cover = *p.cover;
    }
    CHECK(texture == doctest::Approx(*measure_pattern(region).texture_stops));
}

TEST_CASE("without light through the glass the texture is 0, not unknown") {
    const RegionImage region = region_of(240, 160, stripes(4, 8, 1));
    RegionImage few = left_of(region, 1);
    std::fill(few.inside.begin() + 30 * few.width, few.inside.end(), char{0});
    for (const RegionImage& lit : {left_of(region, 0), few}) {
        const Pattern p = measure_pattern_through(region, lit);
        REQUIRE(p.texture_stops);
        CHECK(*p.texture_stops == 0);
        CHECK(*p.cover == 0);
        CHECK_FALSE(p.patch_px);
    }
}

TEST_CASE("after one pass, and in too much noise, the texture through the glass is not known") {
    RegionImage region = region_of(240, 160, stripes(4, 8, 1));
    add_noise(region, 30);
    CHECK_FALSE(measure_pattern_through(region, left_of(region, 120)).texture_stops);
    region.noise_known = false;
    CHECK_FALSE(measure_pattern_through(region, left_of(region, 120)).texture_stops);
}
