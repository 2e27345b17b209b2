#include "judge/pattern.h"

#include <doctest/doctest.h>

#include "known_regions.h"

using namespace dapple;
using namespace dapple::test;

TEST_CASE("a region too small for a cell, or unlit, has no pattern, and the reason is given") {
    const auto small = measure_pattern(region_of(5, 5, [](int, int) { return 1.0; }));
    CHECK(small.texture_stops.why.starts_with("too few pixels"));
    CHECK(small.cover.why == small.texture_stops.why);
    const auto dark = measure_pattern(region_of(32, 32, [](int, int) { return 0.0; }));
    CHECK(dark.texture_stops.why == "unlit");
    CHECK_FALSE(measure_pattern(region_of(5, 5, [](int, int) { return 1.0; })).texture_stops);
    CHECK_FALSE(measure_pattern(region_of(32, 32, [](int, int) { return 0.0; })).texture_stops);
}

TEST_CASE("after one pass the noise is not known and no pattern is reported") {
    RegionImage region = region_of(64, 64, stripes(4, 8, 1));
    REQUIRE(measure_pattern(region).texture_stops);
    region.noise_known = false;
    CHECK_FALSE(measure_pattern(region).texture_stops);
}

TEST_CASE("stripes one stop apart, half and half, have a texture of half a stop") {
    const auto p = measure_pattern(region_of(512, 512, stripes(8, 16, 1)));
    REQUIRE(p.texture_stops);
    // Cells of 86 px hold five periods; their quadratic takes away a few percent of the variance.
    CHECK(*p.texture_stops == doctest::Approx(0.5).epsilon(0.04));
    const auto q = measure_pattern(region_of(512, 512, stripes(8, 16, 3)));
    CHECK(*q.texture_stops == doctest::Approx(1.5).epsilon(0.04));
}

TEST_CASE("stripes of known width give that patch size" * doctest::test_suite("figures")) {
    struct Case {
        int width, period;
    };
    for (const Case c :
         {Case{4, 8}, Case{8, 16}, Case{6, 24}, Case{10, 20}, Case{5, 25}, Case{40, 80}}) {
        CAPTURE(c.width);
        CAPTURE(c.period);
        const auto p = measure_pattern(region_of(640, 480, stripes(c.width, c.period, 2)));
        REQUIRE(p.texture_stops);
        REQUIRE(p.patch_px);
        // The fit changes the base line a little: 6 % of the width.
        CHECK(*p.patch_px == doctest::Approx(c.width).epsilon(0.06));
        CHECK(*p.patch_cm == doctest::Approx(0.4 * *p.patch_px));
    }
}

TEST_CASE("patches of a sine are half its period wide, whichever way the stripes run") {
    for (const double turn : {0.0, 22.5, 45.0, 90.0, 135.0}) {
        CAPTURE(turn);
        const double a = radians_from_degrees(turn);
        const auto p = measure_pattern(region_of(640, 480, [a](int x, int y) {
            const double s = x * std::cos(a) + y * std::sin(a);
            return std::exp2(0.7 * std::sin(2 * kPi * s / 20));
        }));
        REQUIRE(p.texture_stops);
        REQUIRE(p.patch_px);
        // 22.5° is halfway between two of the four directions: at worst 1/cos 22.5° = 1.082 times
        // too wide. Along the diagonals steps are 1.4 px, with linear interpolation between them.
        CHECK(*p.patch_px > 10 * 0.95);
        CHECK(*p.patch_px < 10 * 1.082 * 1.03);
        CHECK(*p.texture_stops == doctest::Approx(0.7 / std::sqrt(2.0)).epsilon(0.04));
    }
}

TEST_CASE("stripes as wide as a fifth of the region are given no size") {
    // They repeat twice or less.
    for (const int width : {107, 130, 160, 300}) {
        CAPTURE(width);
        const auto p = measure_pattern(region_of(640, 480, stripes(width, 2 * width, 2)));
        REQUIRE(p.texture_stops);
        CHECK(p.patch_px.why.starts_with("much of the pattern is as wide"));
    }
}

TEST_CASE("without a known footprint a patch has pixels but no centimetres") {
    RegionImage region = region_of(128, 128, stripes(4, 8, 1));
    region.pixel_m = 0;
    const auto p = measure_pattern(region);
    REQUIRE(p.texture_stops);
    CHECK(p.patch_px);
    CHECK_FALSE(p.patch_cm);
}

TEST_CASE("a smooth beam is no texture") {
    const auto p = measure_pattern(region_of(640, 480, beam(320, 240, 180)));
    REQUIRE(p.texture_stops);
    // Its logarithm is a quadratic surface, so only rounding is left.
    CHECK(*p.texture_stops < 1e-4);
    CHECK_FALSE(p.patch_px);
}

TEST_CASE("a flat-topped beam among other light is hardly any texture") {
    // n = 4, the beam law's default, with its half-light radius a quarter of the wall.
    const auto p = measure_pattern(region_of(640, 480, [](int x, int y) {
        const double r = std::hypot(x - 320.0, y - 240.0) / 160;
        return 1 + 100 * std::exp2(-std::pow(r, 4));
    }));
    REQUIRE(p.texture_stops);
    CHECK(*p.texture_stops < 0.09);  // 0.08 by pattern.h; the cells' places change it a little
    CHECK_FALSE(p.patch_px);
}

TEST_CASE("a checkerboard has the texture and the patches that it is made of, to 1 %") {
    for (const int square : {4, 5, 6, 8}) {
        for (const double stops : {0.5, 3.0}) {
            CAPTURE(square);
            CAPTURE(stops);
            const auto p = measure_pattern(region_of(480, 360, [=](int x, int y) {
                return (x / square + y / square) % 2 == 0 ? 7.0 : 7.0 * std::exp2(stops);
            }));
            REQUIRE(p.texture_stops);
            CHECK(*p.texture_stops == doctest::Approx(0.5 * stops).epsilon(0.01));
            CHECK(*p.texture_stops.error == 0);  // no noise
            REQUIRE(p.patch_px);
            CHECK(*p.patch_px == doctest::Approx(square).epsilon(0.01));
            // Half of the light above 2 stops: the dark squares are below half of the bright ones.
            CHECK(*p.cover == doctest::Approx(stops > 2 ? 0.5 : 1));
        }
    }
}

TEST_CASE("a ramp has no texture") {
    const auto steep = measure_pattern(region_of(640, 480, [](int x, int) { return 40 + x; }));
    // Four stops. The logarithm of a straight ramp is not quite a quadratic surface.
    CHECK(*steep.texture_stops < 0.02);
    const auto stops = measure_pattern(
        region_of(640, 480, [](int x, int y) { return std::exp2(0.01 * x + 0.005 * y); }));
    CHECK(*stops.texture_stops < 1e-4);
    const auto slow = measure_pattern(region_of(640, 480, [](int x, int) { return 300 + x; }));
    CHECK(*slow.texture_stops < 1e-3);
}

TEST_CASE("noise alone reads as no texture, within the error that is stated" *
          doctest::test_suite("figures")) {
    for (const double relative : {0.05, 0.125, 0.5, 1.0}) {
        int far = 0;
        for (uint32_t seed = 0; seed < 20; ++seed) {
            CAPTURE(relative);
            RegionImage region = region_of(320, 240, beam(160, 120, 120));
            add_noise(region, relative, seed);
            const auto p = measure_pattern(region);
            REQUIRE(p.texture_stops);
            CHECK(*p.texture_stops <= 3 * *p.texture_stops.error);
            if (*p.texture_stops > *p.texture_stops.error) ++far;
            if (relative < 0.2) CHECK(*p.texture_stops < 0.02);
            CHECK_FALSE(p.patch_px);
        }
        CHECK(far <= 6);  // 16 % of 20 are 3, give or take 1.6
    }
}

TEST_CASE("the error of a texture is its spread between films of other random numbers") {
    constexpr int kFilms = 20;
    double sum = 0;
    double squares = 0;
    double error = 0;
    for (uint32_t seed = 0; seed < kFilms; ++seed) {
        RegionImage region = region_of(320, 240, stripes(8, 16, 0.5));
        add_noise(region, 0.3, seed);
        const auto p = measure_pattern(region);
        sum += *p.texture_stops / kFilms;
        squares += *p.texture_stops * *p.texture_stops / kFilms;
        error += *p.texture_stops.error / kFilms;
    }
    // A spread of 20 is known to 16 %, and it is stated from 30 cells only.
    CHECK(error == doctest::Approx(std::sqrt(squares - sum * sum)).epsilon(0.5));
    CHECK(sum == doctest::Approx(0.25).epsilon(0.04));  // the fit's few per cent
}

TEST_CASE("a wall of few hits has no texture, and a wall of too few hits is not judged") {
    const RegionImage even = region_of(640, 480, [](int, int) { return 20.0; });
    RegionImage few = even;
    add_sparse_hits(few, 0.2);
    const auto p = measure_pattern(few);
    REQUIRE(p.texture_stops);
    CHECK(p.block_px == 8);  // single pixels are too noisy
    // Some 13 hits a block give noise of s = 0.28. The logarithm makes its variance too large by
    // 1.5 s⁴, (0.14 stops)².
    CHECK(*p.texture_stops < 0.15);
    CHECK_FALSE(p.patch_px);
    RegionImage too_few = even;
    add_sparse_hits(too_few, 0.02);
    CHECK_FALSE(measure_pattern(too_few).texture_stops);
}

TEST_CASE("texture and patch size survive noise") {
    RegionImage region = region_of(1024, 640, stripes(16, 32, 2));
    add_noise(region, 0.3);
    const auto p = measure_pattern(region);
    REQUIRE(p.texture_stops);
    REQUIRE(p.patch_px);
    CHECK(p.block_px == 2);
    // Blocks of 2 px keep these stripes whole.
    CHECK(*p.texture_stops == doctest::Approx(1).epsilon(0.06));
    CHECK(*p.patch_px == doctest::Approx(16).epsilon(0.1));
}

TEST_CASE("a broken beam has the same texture as the pattern without the beam") {
    const auto stripe = stripes(6, 12, 1);
    const auto lamp = beam(320, 240, 200);
    const auto p = measure_pattern(
        region_of(640, 480, [&](int x, int y) { return stripe(x, y) * lamp(x, y); }));
    REQUIRE(p.texture_stops);
    CHECK(*p.texture_stops == doctest::Approx(0.5).epsilon(0.04));
    CHECK(*p.patch_px == doctest::Approx(6).epsilon(0.06));
}

TEST_CASE("patches on black cover their share of the area, even light covers all") {
    for (const int width : {1, 4, 16, 31}) {
        const auto p = measure_pattern(
            region_of(320, 64, [&](int x, int) { return x % 32 < width ? 50.0 : 0.0; }));
        REQUIRE(p.texture_stops);
        CHECK(*p.cover == doctest::Approx(width / 32.0));
    }
    CHECK(*measure_pattern(region_of(64, 64, [](int, int) { return 3.0; })).cover == 1);
}

TEST_CASE("a bell-shaped beam covers the disc where it is brighter than a quarter") {
    // B = ∫L²/∫L = half of the peak for 2^-(r²); B/2 is reached at r = √2 · half.
    const double half = 40;
    const auto p = measure_pattern(region_of(400, 400, beam(199.5, 199.5, half)));
    REQUIRE(p.texture_stops);
    CHECK(*p.cover == doctest::Approx(kPi * 2 * half * half / (400.0 * 400.0)).epsilon(0.01));
}

TEST_CASE("paint is no texture of the light, and light on paint keeps its own") {
    const auto paint = [](int x, int y) { return (x / 7 + y / 5) % 2 == 0 ? 0.1 : 0.6; };
    const auto stripe = stripes(8, 16, 1);
    RegionImage painted = region_of(480, 320, [&](int x, int y) { return 40 * paint(x, y); });
    RegionImage both =
        region_of(480, 320, [&](int x, int y) { return 40 * paint(x, y) * stripe(x, y); });
    CHECK(*measure_pattern(painted).texture_stops > 1);  // 0.5 log2(6) without the reflectance
    for (RegionImage* region : {&painted, &both}) {
        for (int i = 0; i < 480 * 320; ++i) {
            region->reflectance.push_back(paint(i % 480, i / 480));
        }
    }
    CHECK(*measure_pattern(painted).texture_stops < 1e-3);
    CHECK(*measure_pattern(both).texture_stops == doctest::Approx(0.5).epsilon(0.04));
}

TEST_CASE("a small region has no patches in any film") {
    for (uint32_t seed = 0; seed < 5; ++seed) {
        RegionImage region = region_of(40, 40, stripes(4, 8, 1));
        add_noise(region, 0.05, seed);
        const Pattern p = measure_pattern(region);
        CHECK(p.texture_stops);
        CHECK(p.patch_px.why == "too few pixels away from edges: patches need 2000");
    }
}
