// Pilots of an earlier scene steer the sampling of a later one. That affects only the noise.
#include <doctest/doctest.h>

#include <cmath>

#include "geometry/world.h"
#include "render/prepare/pilots.h"
#include "render/render_frame.h"
#include "render/scene_changes.h"

using namespace dapple;
using namespace dapple::test;

namespace {

RenderOptions small_options(int passes, uint64_t seed) {
    RenderOptions options;
    options.passes = passes;
    options.seed = seed;
    // Blurred splats are light at other pixels; the tiles' means should differ by noise alone.
    options.footprint_px = 0;
    options.merge_radius_px = 0.5;
    return options;
}

Scene small(Scene scene) {
    scene.camera.width = 24;
    scene.camera.height = 16;
    scene.regions.clear();
    return scene;
}

}  // namespace

TEST_CASE("a frame with the pilots of the scene before has the same light" *
          doctest::test_suite("slow")) {
    const Scene before = small(room_with_everything());
    const World world_before(before);
    const RenderResult earlier = render_frame(before, world_before, small_options(1, 1));
    int checked = 0;
    for (const SceneChange& change : scene_changes()) {
        CAPTURE(change.what);
        Scene scene = small(room_with_everything());
        change.apply(scene);
        const World world(scene);
        const RenderResult anew = render_frame(scene, world, small_options(40, 2));
        RenderOptions options = small_options(40, 3);
        options.pilots = earlier.pilots;
        const RenderResult kept = render_frame(scene, world, options);
        const auto a = anew.film.frame_luminance();
        const auto b = kept.film.frame_luminance();
        // 3.5 standard errors of the difference; one of twelve is beyond by chance 1 time in 180.
        const double error = std::hypot(a.stderr_of_mean, b.stderr_of_mean);
        CAPTURE(a.mean);
        CAPTURE(b.mean);
        CAPTURE(error);
        CHECK(std::abs(a.mean - b.mean) < 3.5 * error);
        CHECK(error < 0.05 * a.mean);
        ++checked;
    }
    CHECK(checked == 12);
}

TEST_CASE("pilots that are handed on are those of the frame they come from") {
    const Scene scene = small(room_with_everything());
    const World world(scene);
    const RenderResult first = render_frame(scene, world, small_options(2, 1));
    RenderOptions options = small_options(2, 1);
    options.pilots = first.pilots;
    const RenderResult again = render_frame(scene, world, options);
    CHECK(again.film.sums() == first.film.sums());
}

TEST_CASE("pilots of another number of fixtures are not used") {
    const Scene before = small(room_with_everything());
    const World world_before(before);
    const RenderResult earlier = render_frame(before, world_before, small_options(1, 1));
    Scene scene = before;
    scene.fixtures.pop_back();
    const World world(scene);
    RenderOptions options = small_options(1, 1);
    const RenderResult anew = render_frame(scene, world, options);
    options.pilots = earlier.pilots;
    CHECK(render_frame(scene, world, options).film.sums() == anew.film.sums());
}

TEST_CASE("a lamp that has moved is asked everywhere, and the others as before") {
    const Scene before = small(room_with_everything());
    const World world(before);
    const RenderResult earlier = render_frame(before, world, small_options(1, 1));
    Scene scene = before;
    scene.fixtures[1].position.x -= 0.4F;
    RenderOptions options = small_options(1, 1);
    options.pilots = earlier.pilots;
    const RenderResult result = render_frame(scene, World(scene), options);
    REQUIRE(result.pilots->asked);
    const Point floor(0.5F, -1.5F, 0.5F);
    const Asked was = earlier.pilots->asked->at(floor, Normal(0, 1, 0), false);
    const Asked now = result.pilots->asked->at(floor, Normal(0, 1, 0), false);
    CHECK(now.lamp(0) == was.lamp(0));
    CHECK(now.lamp(1) == 1.0F);
}
