// Frames of a drag render a part of the light, and look at a part of the picture.
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <memory>

#include "geometry/world.h"
#include "render/render_frame.h"
#include "render/scene_changes.h"

using namespace dapple;
using namespace dapple::test;

namespace {

Scene small_room() {
    Scene scene = room_with_everything();
    scene.camera.width = 24;
    scene.camera.height = 16;
    scene.regions.clear();
    return scene;
}

Film::MeanAndError light_without(const std::vector<bool>& dark, uint64_t seed) {
    const Scene scene = small_room();
    RenderOptions options;
    options.passes = 40;
    options.seed = seed;
    options.footprint_px = 0;
    options.dark = dark;
    return render_frame(scene, World(scene), options).film.frame_luminance();
}

bool is_same_point(const SeenPoint& a, const SeenPoint& b) {
    return a.position == b.position && a.normal == b.normal && a.surface == b.surface &&
           a.albedo == b.albedo && a.footprint_m == b.footprint_m;
}

}  // namespace

TEST_CASE("the light of one fixture and that of all others are the whole light" *
          doctest::test_suite("slow")) {
    const size_t fixtures = small_room().fixtures.size();
    const auto whole = light_without({}, 1);
    for (size_t f = 0; f < fixtures; ++f) {
        CAPTURE(f);
        std::vector<bool> dark(fixtures, false);
        dark[f] = true;
        const auto others = light_without(dark, 2);
        dark.flip();
        const auto own = light_without(dark, 3);
        const double error =
            std::hypot(whole.stderr_of_mean, std::hypot(others.stderr_of_mean, own.stderr_of_mean));
        CHECK(own.mean > 0);
        // 3.5 standard errors of the difference.
        CHECK(std::abs(others.mean + own.mean - whole.mean) < 3.5 * error);
        CHECK(error < 0.06 * whole.mean);
    }
}

TEST_CASE("a dark fixture puts nothing on the film") {
    const Scene scene = small_room();
    RenderOptions options;
    options.passes = 1;
    options.dark.assign(scene.fixtures.size(), true);
    options.dark[0] = false;
    const Film film = render_frame(scene, World(scene), options).film;
    std::vector<double> light(film.groups().size(), 0.0);
    for (int i = 0; i < film.pixels(); ++i) {
        for (size_t g = 0; g < light.size(); ++g) {
            light[g] += film.resolve(i, static_cast<int>(g)).y;
        }
    }
    for (size_t g = 0; g < light.size(); ++g) {
        CAPTURE(film.groups()[g].name);
        CHECK((light[g] > 0) == (film.groups()[g].fixture == 0));
    }
}

TEST_CASE("pixels that do not look again see what they would see") {
    Scene scene = small_room();
    World world(scene, WorldUse::kChanging);
    RenderOptions options;
    options.passes = 1;
    options.reads_meters = false;
    options.finer = 5;
    auto sight = std::make_shared<const FinePoints>(render_frame(scene, world, options).fine);
    const std::array<std::function<void(Scene&)>, 5> steps = {
        [](Scene& s) { s.glasses[0].position.x += 0.2F; },
        [](Scene& s) { s.fixtures[1].position.z -= 0.3F; },
        [](Scene& s) {
            s.fixtures[1].source_diameter *= 1.5F;
            s.fixtures[1].panel_size *= 1.5F;
            s.fixtures[1].housing_diameter += 0.1F;
        },
        [](Scene& s) { s.boards[0].centre.y += 0.1F; },
        [](Scene& s) { s.glasses[2].tilt = 0.1F; }};
    for (const auto& step : steps) {
        step(scene);
        world.change_to(scene);
        RenderOptions keeping = options;
        keeping.kept_sight = {sight, world.changed_bounds()};
        const FinePoints kept = render_frame(scene, world, keeping).fine;
        const FinePoints anew = render_frame(scene, world, options).fine;
        REQUIRE(kept.seen.pixels.size() == anew.seen.pixels.size());
        int different = 0;
        for (size_t i = 0; i < anew.seen.pixels.size(); ++i) {
            different += is_same_point(kept.seen.pixels[i], anew.seen.pixels[i]) ? 0 : 1;
        }
        CHECK(different == 0);
        CHECK(kept.blurred == anew.blurred);
        sight = std::make_shared<const FinePoints>(kept);
    }
}
