// Frames whose light is coarser than their picture.
#include <doctest/doctest.h>

#include <cmath>

#include "clean/finer_frame.h"
#include "geometry/world.h"
#include "render/prepare/setup.h"
#include "render/render_frame.h"
#include "render/scene_changes.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// Mean luminance over a quarter of the frame, cd/m².
double quarter_mean(const CleanFrame& frame, int quarter) {
    const int x0 = quarter % 2 * frame.width / 2;
    const int y0 = quarter / 2 * frame.height / 2;
    double sum = 0;
    for (int y = y0; y < y0 + frame.height / 2; ++y) {
        for (int x = x0; x < x0 + frame.width / 2; ++x) {
            sum += frame.total[static_cast<size_t>(y * frame.width + x)].y;
        }
    }
    return 4 * sum / (static_cast<double>(frame.width) * frame.height);
}

}  // namespace

// The same film for both, so their difference is not noise. The room has lamps in the frame, glass,
// a mirror and cloth.
TEST_CASE("a finer picture is as bright as the frame that its light comes from") {
    Scene scene = room_with_everything();
    scene.camera.width = 48;
    scene.camera.height = 32;
    scene.regions.clear();
    const World world(scene);
    RenderOptions options;
    options.passes = 2;
    options.finer = 5;
    const RenderResult result = render_frame(scene, world, options);
    const double white = white_of(scene.camera);
    const CleanFrame coarse = clean_film(result.film, result.seen, white);
    const CleanFrame finer =
        make_finer(clean_coarse_light(result.film, result.seen, white), result.seen, result.fine);
    REQUIRE(finer.width == 240);
    REQUIRE(finer.height == 160);
    for (int quarter = 0; quarter < 4; ++quarter) {
        CAPTURE(quarter);
        const double wanted = quarter_mean(coarse, quarter);
        CHECK(std::abs(quarter_mean(finer, quarter) - wanted) < 0.02 * wanted);
    }
}

TEST_CASE("a film is the same with and without a finer picture") {
    Scene scene = room_with_everything();
    scene.camera.width = 24;
    scene.camera.height = 16;
    const World world(scene);
    RenderOptions options;
    options.passes = 1;
    const RenderResult plain = render_frame(scene, world, options);
    options.finer = 3;
    CHECK(render_frame(scene, world, options).film.sums() == plain.film.sums());
}
