// A solid of glass with one frosted face: walks that enter by one face leave by the other.
#include <doctest/doctest.h>

#include <cmath>

#include "geometry/world.h"
#include "render/read_meters.h"
#include "render/test_scenes.h"
#include "transport/start_media.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// A cobalt pane across a box with bright walls.
Scene pane_in_furnace() {
    Scene scene = furnace(100);
    Material glass = clear_glass("pane", GlassType::kSodaLime);
    glass.tint = Tint::kCobalt;
    GlassObject pane;
    pane.form = GlassForm::kPane;
    pane.position = Point(0, -0.9F, 0);
    pane.width = pane.height = 1.8F;
    pane.wall = 0.004F;
    pane.material = add_material(scene, glass);
    scene.glasses.push_back(pane);
    return scene;
}

void frost(Scene& scene, MaterialId GlassObject::*face, float roughness) {
    Material rough = scene.materials[0];
    rough.roughness = roughness;
    rough.medium = scene.glasses[0].material;
    scene.glasses[0].*face = add_material(scene, rough);
}

// The reading of a meter close behind the pane.
Reading reading_behind(Scene scene) {
    Meter meter;
    meter.position = Point(0, 0, 0.05F);
    meter.facing = Direction(0, 0, -1);
    scene.meters = {meter};
    const World world(scene);
    MeterOptions options;
    options.transport = Transport::kCamera;
    options.passes = 40;
    options.meter_walks = 2048;
    return read_meters(scene, world, options).readings.at(0);
}

}  // namespace

// If a walk left the glass but its medium were still glass, a metre of cobalt would absorb all
// light.
TEST_CASE("a lightly frosted face passes as much light as a smooth one") {
    const Reading smooth = reading_behind(pane_in_furnace());
    for (MaterialId GlassObject::*face : {&GlassObject::outer_face, &GlassObject::inner_face}) {
        Scene scene = pane_in_furnace();
        frost(scene, face, 0.1F);
        const Reading frosted = reading_behind(scene);
        const double sigma = std::hypot(smooth.lux_stderr, frosted.lux_stderr);
        CHECK(sigma < 0.01 * smooth.lux);
        // Microfacets of this roughness shadow each other by less than a hundredth.
        CHECK(std::abs(frosted.lux - smooth.lux) < 3.3 * sigma + 0.01 * smooth.lux);
    }
}

TEST_CASE("a lamp inside of glass with a frosted face starts in one medium") {
    Scene scene = pane_in_furnace();
    frost(scene, &GlassObject::inner_face, 0.4F);
    const World world(scene);
    const MediumStack media = find_media(scene, world, Point(0.1F, 0.1F, 0));
    CHECK(media.current() == scene.glasses[0].material);
    CHECK(find_media(scene, world, Point(0.1F, 0.1F, 0.1F)).empty());
    CHECK(find_media(scene, world, Point(0.1F, 0.1F, -0.1F)).empty());
}
