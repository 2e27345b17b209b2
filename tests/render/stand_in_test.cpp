// The light at the lay figure and under its cape.
#include <doctest/doctest.h>

#include "geometry/world.h"
#include "render/read_meters.h"
#include "render/test_scenes.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr double kLumens = 1000;

// A figure of 1.8 m that reflects no light, so that a meter near it reads the lamp alone.
Scene dark_figure() {
    Scene scene;
    scene.title = "figure";
    StandIn figure;
    figure.height = 1.8F;
    figure.skin = add_material(scene, lambertian("skin", 0));
    scene.stand_ins.push_back(figure);
    return scene;
}

void add_dress(Scene& scene, float transmission) {
    Material sheet = lambertian("dress", 0);
    sheet.kind = MaterialKind::kSheet;
    sheet.transmission = sheet.direct = transmission;
    scene.stand_ins[0].dress = add_material(scene, sheet);
}

void add_point_lamp(Scene& scene, const Point& position) {
    Fixture lamp = fixture_of(FixtureForm::kBare, position, Point(0), kLumens);
    lamp.source_diameter = 0;
    scene.fixtures.push_back(lamp);
}

double lux_at(Scene& scene, const Point& position, const Direction& facing) {
    Meter meter;
    meter.position = position;
    meter.facing = facing;
    scene.meters = {meter};
    const World world(scene);
    MeterOptions options;
    options.transport = Transport::kCamera;  // for one point lamp this has no noise
    options.passes = 1;
    options.meter_walks = 64;
    return read_meters(scene, world, options).readings.at(0).lux;
}

double lux_of_lamp(double distance) {
    return kLumens / (4 * kPi) / (distance * distance);
}

}  // namespace

TEST_CASE("a meter at the face reads the lamp by its distance; behind the head it reads 0") {
    Scene scene = dark_figure();
    const Point lamp(0.8F, 2.2F, 2.0F);
    add_point_lamp(scene, lamp);
    const Point face(0, 1.68F, 0.25F);
    const Direction to_lamp = glm::normalize(lamp - face);
    CHECK(lux_at(scene, face, to_lamp) ==
          doctest::Approx(lux_of_lamp(glm::distance(lamp, face))).epsilon(1e-4));
    // The line from the lamp goes through the middle of the head.
    const Point head(0, 1.683F, 0.0216F);
    const Point behind = head - 0.25F * glm::normalize(lamp - head);
    CHECK(lux_at(scene, behind, glm::normalize(lamp - behind)) == 0);
}

TEST_CASE("a meter under the cape reads the share of the light that the cloth passes straight") {
    const Point lamp(0, 1.26F, 2.15F);
    const Point chest(0, 1.26F, 0.15F);  // between the cloth and the chest
    for (const float transmission : {0.2F, 0.65F}) {
        Scene scene = dark_figure();
        add_point_lamp(scene, lamp);
        CHECK(lux_at(scene, chest, Direction(0, 0, 1)) ==
              doctest::Approx(lux_of_lamp(2.0)).epsilon(1e-4));
        add_dress(scene, transmission);
        CHECK(lux_at(scene, chest, Direction(0, 0, 1)) ==
              doctest::Approx(transmission * lux_of_lamp(2.0)).epsilon(1e-4));
    }
}
