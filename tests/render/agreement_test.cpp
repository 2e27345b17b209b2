// The techniques of the engine agree with each other and with closed forms.
#include <doctest/doctest.h>

#include "geometry/world.h"
#include "render/render_frame.h"
#include "render/test_scenes.h"

#include <cmath>

using namespace dapple;
using namespace dapple::test;

TEST_CASE("light walks and camera walks agree on a room without glass, region by region") {
    const Scene scene = room_without_glass();
    const World world(scene);
    RenderOptions options;
    options.passes = 48;
    options.transport = Transport::kCamera;
    const RenderResult camera = render_frame(scene, world, options);
    options.transport = Transport::kWalks;
    options.seed = 2;
    options.light_walks_per_pixel = 8;
    const RenderResult walks = render_frame(scene, world, options);
    CHECK(camera.nonfinite_samples == 0);
    CHECK(walks.nonfinite_samples == 0);
    for (size_t r = 0; r < scene.regions.size(); ++r) {
        const auto a = camera.film.region_luminance(r);
        const auto b = walks.film.region_luminance(r);
        const double se = std::hypot(a.stderr_of_mean, b.stderr_of_mean);
        CAPTURE(scene.regions[r].name);
        CAPTURE(a.mean);
        CAPTURE(b.mean);
        CAPTURE(se);
        CHECK(std::abs(a.mean - b.mean) < 3.3 * se);
        CHECK(se < 0.01 * a.mean);
    }
}
