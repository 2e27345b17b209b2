// The media in which walks start.
#include "transport/start_media.h"

#include <doctest/doctest.h>

#include <cmath>

#include "render/render_frame.h"
#include "render/test_scenes.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr MaterialId kGlass = 0;
constexpr MaterialId kWater = 1;

// A tumbler, half full of water, that stands on y = 0 in a box room.
Scene tumbler_of_water() {
    Scene scene;
    add_material(scene, clear_glass("glass", GlassType::kSodaLime));
    Material water = clear_glass("water", GlassType::kWater);
    water.priority = 5;
    add_material(scene, water);
    scene.room.push_back(box_room(Vec3(2), add_material(scene, lambertian("grey", 0.4F))));
    GlassObject tumbler;
    tumbler.form = GlassForm::kTumbler;
    tumbler.height = 0.5F;
    tumbler.diameter = 0.4F;
    tumbler.wall = 0.02F;
    tumbler.material = kGlass;
    tumbler.liquid = kWater;
    tumbler.liquid_level = 0.5F;
    scene.glasses.push_back(tumbler);
    return scene;
}

// A box room whose lower half is filled with water. The lens and the lamp can be under water.
Scene tank_of_water(const Point& eye, const Point& lamp) {
    Scene scene;
    const MaterialId grey = add_material(scene, lambertian("grey", 0.5F));
    const MaterialId water = add_material(scene, clear_glass("water", GlassType::kWater));
    scene.room.push_back(box_room(Vec3(1), grey));
    Mesh body = box_room(Vec3(1.1F), water);  // its normals point inwards; they are reversed here
    for (Point& p : body.positions) p.y = std::min(p.y, 0.0F);
    for (glm::uvec3& t : body.triangles) std::swap(t.y, t.z);
    scene.room.push_back(body);
    Fixture bare = fixture_of(FixtureForm::kBare, lamp, Point(0), 400);
    bare.source_diameter = 0.7F;
    scene.fixtures.push_back(bare);
    scene.camera = camera_at(eye, Point(0, -0.6F, -0.8F), 24, 16);
    add_tiles(scene);
    return scene;
}

RenderResult render(
    const Scene& scene, Transport transport, int passes, uint64_t seed, double footprint_px = 0) {
    const World world(scene);
    RenderOptions options;
    options.transport = transport;
    options.passes = passes;
    options.light_walks_per_pixel = 4;
    options.seed = seed;
    options.footprint_px = footprint_px;
    return render_frame(scene, world, options);
}

}  // namespace

TEST_CASE("a point is found in the glass, in the water, in the air above it and outside") {
    const Scene scene = tumbler_of_water();
    const World world(scene);
    const auto filled_with = [&](const Point& point) {
        return find_media(scene, world, point).current();
    };
    CHECK(filled_with(Point(0, 0.03F, 0)) == kGlass);  // the base is 60 mm thick
    CHECK(filled_with(Point(0, 0.2F, 0)) == kWater);
    CHECK(filled_with(Point(0.05F, 0.15F, -0.03F)) == kWater);
    CHECK(filled_with(Point(0, 0.45F, 0)) == kNoMaterial);
    CHECK(filled_with(Point(0.5F, 0.2F, 0)) == kNoMaterial);
    CHECK(filled_with(Point(0, -1, 0)) == kNoMaterial);
}

TEST_CASE("where the mesh of water extends into its glass, a point is in both") {
    const Scene scene = tumbler_of_water();
    const World world(scene);
    // The base ends at 60 mm, and the water begins a little below.
    const MediumStack both = find_media(scene, world, Point(0, 0.0599F, 0));
    CHECK(both.current() == kGlass);
    MediumStack without_glass = both;
    without_glass.leave(kGlass);
    CHECK(without_glass.current() == kWater);
}

TEST_CASE("walks start in the media at the lens and at the lamp") {
    const Scene scene = tank_of_water(Point(0, 0.5F, 0.8F), Point(0, -0.5F, 0));
    const World world(scene);
    const StartMedia start = find_start_media(scene, world);
    CHECK(start.lens.empty());
    REQUIRE(start.lamps.size() == 1);
    CHECK(start.lamps[0].current() == 1);
}

TEST_CASE("light walks and camera walks agree where lens or lamp or both are under water" *
          doctest::test_suite("slow")) {
    const Point above(0, 0.6F, 0);
    const Point below(0.2F, -0.5F, 0);
    const Point eye_above(0, 0.5F, 0.8F);
    const Point eye_below(0, -0.3F, 0.8F);
    for (const auto& [eye, lamp] :
         {std::pair{eye_above, below}, {eye_below, above}, {eye_below, below}}) {
        const Scene scene = tank_of_water(eye, lamp);
        const RenderResult a = render(scene, Transport::kCamera, 2000, 1);
        const RenderResult b = render(scene, Transport::kWalks, 700, 2);
        for (size_t r = 0; r < scene.regions.size(); ++r) {
            const auto x = a.film.region_luminance(r);
            const auto y = b.film.region_luminance(r);
            const double se = std::hypot(x.stderr_of_mean, y.stderr_of_mean);
            CAPTURE(eye.y);
            CAPTURE(lamp.y);
            CAPTURE(scene.regions[r].name);
            CAPTURE(x.mean);
            CAPTURE(y.mean);
            CAPTURE(se);
            CHECK(std::abs(x.mean - y.mean) < 3.3 * se);
            CHECK(se < 0.03 * x.mean);
        }
    }
}

TEST_CASE("a lens under water sees the same light when dispersed wavelengths stay together" *
          doctest::test_suite("slow")) {
    // Camera walks alone; footprints let dispersed wavelengths stay together (E79). What the lens
    // passes of the radiance in water (E73) must count for all of them.
    const Point eye(0, -0.5F, 0.6F);
    Scene scene = tank_of_water(eye, Point(0, 0.6F, 0));
    scene.camera = camera_at(eye, Point(0, 0.6F, -0.3F), 24, 16);  // up through the surface
    const RenderResult apart = render(scene, Transport::kCamera, 2000, 1);
    const RenderResult together = render(scene, Transport::kCamera, 2000, 2, 2.5);
    for (size_t r = 0; r < scene.regions.size(); ++r) {
        const auto x = apart.film.region_luminance(r);
        const auto y = together.film.region_luminance(r);
        const double se = std::hypot(x.stderr_of_mean, y.stderr_of_mean);
        CAPTURE(scene.regions[r].name);
        CAPTURE(x.mean);
        CAPTURE(y.mean);
        CAPTURE(se);
        CHECK(std::abs(x.mean - y.mean) < 3.3 * se);
        CHECK(se < 0.03 * x.mean);
    }
}
