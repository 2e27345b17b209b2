#include "develop/pattern.h"

#include <doctest/doctest.h>

#include <cmath>
#include <functional>

#include "base/random.h"
#include "base/units.h"

using namespace dapple;

namespace {

using LuminanceAt = std::function<double(int x, int y)>;

RegionImage region_of(int width, int height, const LuminanceAt& luminance) {
    RegionImage region;
    region.width = width;
    region.height = height;
    region.pixel_m = 0.004;
    region.floor = 1e-3;
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) region.luminance.push_back(luminance(x, y));
    }
    region.variance.assign(region.luminance.size(), 0.0);
    region.inside.assign(region.luminance.size(), 1);
    return region;
}

// Gaussian noise of standard deviation `relative` times the pixel's luminance, known as such.
void add_noise(RegionImage& region, double relative) {
    RandomStream random(7, 0, 0, Purpose::kTest);
    for (size_t i = 0; i < region.luminance.size(); ++i) {
        const double sigma = relative * region.luminance[i];
        const double u = 1.0 - static_cast<double>(random.next());
        const double normal = std::sqrt(-2 * std::log(u)) * std::cos(2 * kPi * random.next());
        region.luminance[i] += sigma * normal;
        region.variance[i] = sigma * sigma;
    }
}

// Few bright hits: a pixel is hit with probability p and then gets level/p. The variance of one
// such trial is known.
void add_sparse_hits(RegionImage& region, double p) {
    RandomStream random(11, 0, 0, Purpose::kTest);
    for (size_t i = 0; i < region.luminance.size(); ++i) {
        const double level = region.luminance[i];
        const bool hit = random.next() < static_cast<float>(p);
        region.luminance[i] = hit ? level / p : 0;
        // As estimated from the spread over passes: 0 where there was no hit.
        region.variance[i] = hit ? level * level / (p * p) : 0;
    }
}

// Bright stripes `width` px wide every `period` px, `stops` over the rest.
LuminanceAt stripes(int width, int period, double stops) {
    return [=](int x, int) { return x % period < width ? std::exp2(stops) : 1.0; };
}

// Bell-shaped beam: half the light at `half` px from the centre.
LuminanceAt beam(double cx, double cy, double half) {
    return [=](int x, int y) {
        const double r = std::hypot(x - cx, y - cy) / half;
        return 100 * std::exp2(-r * r);
    };
}

}  // namespace

TEST_CASE("uniformity of the worked grid is 2/3") {
    // 300 … 600 lx, mean 450: EN 12464-1 definition, worked by hand.
    const double grid[3][3] = {{300, 400, 500}, {350, 450, 550}, {400, 500, 600}};
    const RegionImage region = region_of(24, 24, [&](int x, int y) { return grid[y / 8][x / 8]; });
    const auto u = measure_uniformity(region);
    REQUIRE(u);
    CHECK(u->u0 == doctest::Approx(0.666667).epsilon(1e-6));
    CHECK(u->stderr_of_u0 == 0);
}

TEST_CASE("uniformity counts only the pixels of the region") {
    RegionImage region = region_of(64, 32, [](int x, int) { return x < 32 ? 10.0 : 0.0; });
    CHECK(measure_uniformity(region)->u0 == 0);
    for (int y = 0; y < 32; ++y) {
        for (int x = 32; x < 64; ++x) region.inside[region.index(x, y)] = 0;
    }
    CHECK(measure_uniformity(region)->u0 == doctest::Approx(1));
}

TEST_CASE("noise does not make a wall uneven beyond the error that is stated") {
    RegionImage region = region_of(320, 320, [](int, int) { return 10.0; });
    add_noise(region, 0.3);
    const auto u = measure_uniformity(region);
    REQUIRE(u);
    // Cells of 20 × 20 px have an error of 0.3/20 = 0.015. The darkest of 256 is some 2.8 such
    // errors low.
    CHECK(u->stderr_of_u0 == doctest::Approx(0.015).epsilon(0.1));
    CHECK(u->u0 > 1 - 4.5 * 0.015);
}

TEST_CASE("a region too small for a cell, or unlit, has no uniformity and no pattern") {
    CHECK_FALSE(measure_uniformity(region_of(9, 9, [](int, int) { return 1.0; })));
    CHECK_FALSE(measure_uniformity(region_of(32, 32, [](int, int) { return 0.0; })));
    CHECK_FALSE(measure_pattern(region_of(5, 5, [](int, int) { return 1.0; })));
    CHECK_FALSE(measure_pattern(region_of(32, 32, [](int, int) { return 0.0; })));
}

TEST_CASE("after one pass the noise is not known and no pattern is reported") {
    RegionImage region = region_of(64, 64, stripes(4, 8, 1));
    REQUIRE(measure_pattern(region));
    region.noise_known = false;
    CHECK_FALSE(measure_pattern(region));
}

TEST_CASE("stripes one stop apart, half and half, have a texture of half a stop") {
    const auto p = measure_pattern(region_of(512, 512, stripes(8, 16, 1)));
    REQUIRE(p);
    // Cells of 86 px hold five periods; their quadratic takes away a few percent of the variance.
    CHECK(p->texture_stops == doctest::Approx(0.5).epsilon(0.04));
    const auto q = measure_pattern(region_of(512, 512, stripes(8, 16, 3)));
    CHECK(q->texture_stops == doctest::Approx(1.5).epsilon(0.04));
}

TEST_CASE("stripes of known width give that patch size") {
    struct Case {
        int width, period;
    };
    for (const Case c : {Case{4, 8}, Case{8, 16}, Case{6, 24}, Case{10, 20}, Case{5, 25}}) {
        CAPTURE(c.width);
        CAPTURE(c.period);
        const auto p = measure_pattern(region_of(640, 480, stripes(c.width, c.period, 2)));
        REQUIRE(p);
        REQUIRE(p->patch_px);
        // The fit changes the base line a little: 6 % of the width.
        CHECK(*p->patch_px == doctest::Approx(c.width).epsilon(0.06));
        CHECK(*p->patch_cm == doctest::Approx(0.4 * *p->patch_px));
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
        REQUIRE(p);
        REQUIRE(p->patch_px);
        // 22.5° is halfway between two of the four directions: at worst 1/cos 22.5° = 1.082 times
        // too wide. Along the diagonals steps are 1.4 px, with linear interpolation between them.
        CHECK(*p->patch_px > 10 * 0.95);
        CHECK(*p->patch_px < 10 * 1.082 * 1.03);
        CHECK(p->texture_stops == doctest::Approx(0.7 / std::sqrt(2.0)).epsilon(0.04));
    }
}

TEST_CASE("stripes too wide for the cells are given no size") {
    // Cells of 107 px.
    for (const int width : {60, 80, 107, 160}) {
        CAPTURE(width);
        const auto p = measure_pattern(region_of(640, 480, stripes(width, 2 * width, 2)));
        REQUIRE(p);
        CHECK_FALSE(p->patch_px);
    }
}

TEST_CASE("without a known footprint a patch has pixels but no centimetres") {
    RegionImage region = region_of(128, 128, stripes(4, 8, 1));
    region.pixel_m = 0;
    const auto p = measure_pattern(region);
    REQUIRE(p);
    CHECK(p->patch_px);
    CHECK_FALSE(p->patch_cm);
}

TEST_CASE("a smooth beam is no texture") {
    const auto p = measure_pattern(region_of(640, 480, beam(320, 240, 180)));
    REQUIRE(p);
    // Its logarithm is a quadratic surface, so only rounding is left.
    CHECK(p->texture_stops < 1e-4);
    CHECK_FALSE(p->patch_px);
}

TEST_CASE("a flat-topped beam among other light is hardly any texture") {
    // n = 4, the beam law's default, with its half-light radius a quarter of the wall.
    const auto p = measure_pattern(region_of(640, 480, [](int x, int y) {
        const double r = std::hypot(x - 320.0, y - 240.0) / 160;
        return 1 + 100 * std::exp2(-std::pow(r, 4));
    }));
    REQUIRE(p);
    CHECK(p->texture_stops < 0.09);  // 0.08 by pattern.h; the cells' places change it a little
    CHECK_FALSE(p->patch_px);
}

TEST_CASE("noise alone is no texture") {
    for (const double relative : {0.05, 0.2, 0.5, 1.0}) {
        CAPTURE(relative);
        RegionImage region = region_of(640, 480, beam(320, 240, 240));
        add_noise(region, relative);
        const auto p = measure_pattern(region);
        REQUIRE(p);
        // Noise is up to s = 0.29 stops per block. Its variance over n ≥ 4800 blocks is known to
        // s² √(2/n) = 2 %, a texture of 0.04. Second-order terms of the logarithm add as much.
        CHECK(p->texture_stops < 0.09);
        CHECK_FALSE(p->patch_px);
    }
}

TEST_CASE("a wall of few hits has no texture, and a wall of too few hits is not judged") {
    const RegionImage even = region_of(640, 480, [](int, int) { return 20.0; });
    RegionImage few = even;
    add_sparse_hits(few, 0.2);
    const auto p = measure_pattern(few);
    REQUIRE(p);
    CHECK(p->block_px == 8);  // single pixels are too noisy
    // Some 13 hits a block give noise of s = 0.28. The logarithm makes its variance too large by
    // 1.5 s⁴, (0.14 stops)².
    CHECK(p->texture_stops < 0.15);
    CHECK_FALSE(p->patch_px);
    RegionImage too_few = even;
    add_sparse_hits(too_few, 0.02);
    CHECK_FALSE(measure_pattern(too_few));
}

TEST_CASE("texture and patch size survive noise") {
    RegionImage region = region_of(1024, 640, stripes(16, 32, 2));
    add_noise(region, 0.3);
    const auto p = measure_pattern(region);
    REQUIRE(p);
    REQUIRE(p->patch_px);
    CHECK(p->block_px == 2);
    // Blocks of 2 px keep these stripes whole.
    CHECK(p->texture_stops == doctest::Approx(1).epsilon(0.06));
    CHECK(*p->patch_px == doctest::Approx(16).epsilon(0.1));
}

TEST_CASE("a broken beam has the same texture as the pattern without the beam") {
    const auto stripe = stripes(6, 12, 1);
    const auto lamp = beam(320, 240, 200);
    const auto p = measure_pattern(
        region_of(640, 480, [&](int x, int y) { return stripe(x, y) * lamp(x, y); }));
    REQUIRE(p);
    CHECK(p->texture_stops == doctest::Approx(0.5).epsilon(0.04));
    CHECK(*p->patch_px == doctest::Approx(6).epsilon(0.06));
}

TEST_CASE("patches on black cover their share of the area, even light covers all") {
    for (const int width : {1, 4, 16, 31}) {
        const auto p = measure_pattern(
            region_of(320, 64, [&](int x, int) { return x % 32 < width ? 50.0 : 0.0; }));
        REQUIRE(p);
        CHECK(p->cover == doctest::Approx(width / 32.0));
    }
    CHECK(measure_pattern(region_of(64, 64, [](int, int) { return 3.0; }))->cover == 1);
}

TEST_CASE("a bell-shaped beam covers the disc where it is brighter than a quarter") {
    // B = ∫L²/∫L = half of the peak for 2^-(r²); B/2 is reached at r = √2 · half.
    const double half = 40;
    const auto p = measure_pattern(region_of(400, 400, beam(199.5, 199.5, half)));
    REQUIRE(p);
    CHECK(p->cover == doctest::Approx(kPi * 2 * half * half / (400.0 * 400.0)).epsilon(0.01));
}
