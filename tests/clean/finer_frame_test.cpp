// Coarse light on a finer picture.
#include "clean/finer_frame.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <functional>

#include "clean/noisy_film.h"
#include "film/rim_pixels.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr int kStep = 5;
constexpr int kCoarseColumns = 12, kCoarseRows = 8;  // of the coarse frame
constexpr int32_t kFirstGlass = 0x40000001;

struct Wall {
    int32_t surface = 0;
    float reflectance = 0.5F;
};

// A wall at right angles to the view, one metre a fine pixel.
FinePoints wall_of(const std::function<Wall(int x, int y)>& wall_at) {
    FinePoints fine{kStep, {kStep * kCoarseColumns, kStep * kCoarseRows, {}, {}}, {}};
    for (int y = 0; y < fine.seen.height; ++y) {
        for (int x = 0; x < fine.seen.width; ++x) {
            const Wall wall = wall_at(x, y);
            fine.seen.pixels.push_back({.position = Point(x, y, 0),
                                        .footprint_m = 1,
                                        .normal = Normal(0, 0, 1),
                                        .surface = wall.surface,
                                        .albedo = Rgb(wall.reflectance)});
        }
    }
    fine.blurred.assign(fine.seen.pixels.size(), 0);
    return fine;
}

// Grey light without noise: `on_surface` is light over reflectance of what is seen.
CoarseLight grey_light(const FinePoints& fine,
                       const SeenPoints& coarse,
                       const std::function<float(const SeenPoint&)>& on_surface) {
    CoarseLight light;
    const Plane on = make_plane(
        coarse.width, coarse.height, [&](size_t i) { return on_surface(coarse.pixels[i]); });
    const Plane none(coarse.width, coarse.height);
    Plane pixels = none;
    for (size_t j = 0; j < fine.seen.pixels.size(); ++j) {
        const SeenPoint& seen = fine.seen.pixels[j];
        const auto x = static_cast<int>(j) % fine.seen.width / kStep;
        const auto y = static_cast<int>(j) / fine.seen.width / kStep;
        pixels.row(y)[x] +=
            on_surface(seen) * std::max(seen.albedo.r, 0.02F) / float{kStep * kStep};
    }
    light.on_surfaces = {on, on, on};
    light.luminance_on_surfaces = on;
    light.by_pixel = {pixels, pixels, pixels};
    light.held = {none, none, none};
    return light;
}

double light_in(const CleanFrame& frame) {
    double sum = 0;
    for (const Xyz& xyz : frame.total) sum += xyz.y;
    return sum;
}

}  // namespace

TEST_CASE("even light stays even to the bit") {
    const FinePoints fine = wall_of([](int, int) { return Wall(); });
    const SeenPoints coarse = make_coarser(fine.seen, kStep);
    const auto even = [](const SeenPoint&) { return 37.3F; };
    const CleanFrame frame = make_finer(grey_light(fine, coarse, even), coarse, fine);
    REQUIRE(frame.width == kStep * kCoarseColumns);
    REQUIRE(frame.height == kStep * kCoarseRows);
    CHECK(luminance(frame, 0, 0) == doctest::Approx(37.3 / 2).epsilon(1e-5));
    for (const Xyz& xyz : frame.total) {
        REQUIRE(xyz.x == frame.total[0].x);
        REQUIRE(xyz.y == frame.total[0].y);
        REQUIRE(xyz.z == frame.total[0].z);
    }
}

TEST_CASE("a texture is that of the fine picture") {
    const auto stripes = [](int x, int y) {
        return Wall{0, 0.1F + 0.05F * static_cast<float>((3 * x + y) % 13)};
    };
    const FinePoints fine = wall_of(stripes);
    const SeenPoints coarse = make_coarser(fine.seen, kStep);
    const CleanFrame frame =
        make_finer(grey_light(fine, coarse, [](const SeenPoint&) { return 20.0F; }), coarse, fine);
    for (int y = 0; y < frame.height; ++y) {
        for (int x = 0; x < frame.width; ++x) {
            const double wanted = 20 * static_cast<double>(stripes(x, y).reflectance);
            REQUIRE(luminance(frame, x, y) == doctest::Approx(wanted).epsilon(1e-5));
        }
    }
}

TEST_CASE("light does not cross the edge of a surface, wherever the coarse pixels lie") {
    for (int edge = 21; edge < 21 + kStep; ++edge) {
        CAPTURE(edge);
        const FinePoints fine = wall_of([&](int x, int) { return Wall{x < edge ? 0 : 1}; });
        const SeenPoints coarse = make_coarser(fine.seen, kStep);
        const auto bright_and_dark = [](const SeenPoint& seen) {
            return seen.surface == 0 ? 100.0F : 2.0F;
        };
        const CleanFrame frame =
            make_finer(grey_light(fine, coarse, bright_and_dark), coarse, fine);
        for (int y = 0; y < frame.height; ++y) {
            for (int x = 0; x < frame.width; ++x) {
                REQUIRE(luminance(frame, x, y) == doctest::Approx(x < edge ? 50 : 1).epsilon(1e-5));
            }
        }
    }
}

TEST_CASE("a thing that no coarse pixel sees has its own reflectance in the light around it") {
    // A pole one pixel wide between the middles of the coarse pixels.
    const FinePoints fine = wall_of([](int x, int) { return x == 20 ? Wall{1, 0.1F} : Wall(); });
    const SeenPoints coarse = make_coarser(fine.seen, kStep);
    const CleanFrame frame =
        make_finer(grey_light(fine, coarse, [](const SeenPoint&) { return 20.0F; }), coarse, fine);
    CHECK(luminance(frame, 20, 19) == doctest::Approx(2).epsilon(1e-5));
    CHECK(luminance(frame, 19, 19) == doctest::Approx(10).epsilon(1e-5));
}

TEST_CASE("glass takes no light of the wall beside it, and gives none") {
    // What is seen behind the glass is different in each of its pixels.
    const FinePoints fine = wall_of([](int x, int y) {
        return x < 22 ? Wall() : Wall{kFirstGlass + x + 64 * y, 0.5F};
    });
    const SeenPoints coarse = make_coarser(fine.seen, kStep);
    const auto light_of = [](const SeenPoint& seen) { return seen.surface == 0 ? 100.0F : 4.0F; };
    const CleanFrame frame = make_finer(grey_light(fine, coarse, light_of), coarse, fine);
    for (int x = 0; x < frame.width; ++x) {
        CAPTURE(x);
        CHECK(luminance(frame, x, 17) == doctest::Approx(x < 22 ? 50 : 2).epsilon(1e-5));
    }
}

TEST_CASE("a lamp's light stays in its face and loses nothing") {
    const auto lamp = [](int x, int y) { return x > 21 && x < 29 && y > 16 && y < 21; };
    const FinePoints fine = wall_of([&](int x, int y) {
        return lamp(x, y) ? Wall{-1, 0.0F} : Wall{0, 0.02F};
    });
    const SeenPoints coarse = make_coarser(fine.seen, kStep);
    CoarseLight light = grey_light(fine, coarse, [](const SeenPoint&) { return 0.0F; });
    // A pixel of the lamp's face has 1000; a bright speck elsewhere 300.
    double held = 0;
    for (int y = 0; y < fine.seen.height; ++y) {
        for (int x = 0; x < fine.seen.width; ++x) {
            const auto i = static_cast<size_t>(y / kStep * kCoarseColumns + x / kStep);
            const float value = (lamp(x, y) ? 1000.0F : 0.0F) + (i == 14 ? 300.0F : 0.0F);
            for (Plane& channel : light.held) channel[i] += value / (kStep * kStep);
            held += static_cast<double>(value);
        }
    }
    const CleanFrame frame = make_finer(light, coarse, fine);
    CHECK(light_in(frame) == doctest::Approx(held).epsilon(1e-4));
    CHECK(luminance(frame, 22, 17) == doctest::Approx(1000).epsilon(1e-3));
    CHECK(luminance(frame, 28, 20) == doctest::Approx(1000).epsilon(1e-3));
    CHECK(luminance(frame, 29, 20) == doctest::Approx(0));
}

TEST_CASE("a window's light is not taken for that of the wall beside it") {
    const FinePoints fine = wall_of([](int x, int) {
        return x < 24 ? Wall{0, 0.1F} : Wall{-1, 0};
    });
    const SeenPoints coarse = make_coarser(fine.seen, kStep);
    // The fifth pixel of a row sees the wall in its middle, and one column in five is window.
    int at_rim = 0;
    for (const SharedPixel& shared : coarse.shared) {
        if (shared.pixel % kCoarseColumns != 4) continue;
        CHECK(shared.shares[4] == doctest::Approx(0.8));
        CHECK(shared.shares[5] == doctest::Approx(0.2));
        ++at_rim;
    }
    CHECK(at_rim == kCoarseRows);
}

TEST_CASE("what is out of focus has no edges of its own") {
    FinePoints fine = wall_of([](int x, int) { return Wall{x < 22 ? 0 : 1}; });
    fine.blurred.assign(fine.blurred.size(), 1);
    const SeenPoints coarse = make_coarser(fine.seen, kStep);
    const auto bright_and_dark = [](const SeenPoint& seen) {
        return seen.surface == 0 ? 100.0F : 2.0F;
    };
    const CleanFrame frame = make_finer(grey_light(fine, coarse, bright_and_dark), coarse, fine);
    CHECK(luminance(frame, 22, 17) < luminance(frame, 21, 17));
    CHECK(luminance(frame, 22, 17) > 0.5 * luminance(frame, 21, 17));
}

TEST_CASE("a coarser frame has the mean colour of each surface and its share of each pixel") {
    const FinePoints fine = wall_of([](int x, int) {
        return x < 23 ? Wall{0, x % 2 == 0 ? 0.2F : 0.6F} : Wall{1, 0.9F};
    });
    const SeenPoints coarse = make_coarser(fine.seen, kStep);
    // Pixels 20 to 22 of the fourth coarse pixel, whose middle is 22, see the first surface.
    CHECK(coarse.pixels[4].surface == 0);
    CHECK(coarse.pixels[4].albedo.r == doctest::Approx((0.2 + 0.6 + 0.2) / 3));
    CHECK(coarse.pixels[4].footprint_m == doctest::Approx(kStep));
    for (const SharedPixel& shared : coarse.shared) {
        float sum = 0;
        for (const float share : shared.shares) sum += share;
        CHECK(sum == doctest::Approx(1));
        if (shared.pixel == kCoarseColumns + 4) CHECK(shared.shares[5] == doctest::Approx(0.4));
    }
    CHECK(coarse.shared.size() == 2 * kCoarseRows);
}
