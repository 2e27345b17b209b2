// One frosted face on a solid of glass: walks that enter by the one face leave by the other.
#include <doctest/doctest.h>

#include <cmath>

#include "geometry/world.h"
#include "render/read_meters.h"
#include "render/test_scenes.h"
#include "transport/start_media.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// A cobalt pane across a box that is bright on all sides.
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

// What comes through the pane to a meter close behind it.
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

// A walk that left the glass without its medium knowing would lose all light to a metre of cobalt.
TEST_CASE("a lightly frosted face passes what a smooth one does, and no tint leaks into the air") {
    const Reading smooth = reading_behind(pane_in_furnace());
    for (MaterialId GlassObject::*face : {&GlassObject::outer_face, &GlassObject::inner_face}) {
        Scene scene = pane_in_furnace();
        frost(scene, face, 0.1F);
        const Reading frosted = reading_behind(scene);
        const double sigma = std::hypot(smooth.lux_stderr, frosted.lux_stderr);
        CHECK(sigma < 0.01 * smooth.lux);
        // Facets of this roughness shade each other by less than a hundredth, most at grazing.
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
