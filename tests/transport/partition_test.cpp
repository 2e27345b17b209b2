// Transport without weights, where each path is made by one technique alone, finds the same light
// as the weighted techniques. An error in a weight, or a technique that the weights leave out,
// would make a difference.
#include <doctest/doctest.h>

#include "render/agreement.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// A spot behind a hanging cloth, and a small lamp behind a smaller cloth near the camera.
Scene room_with_cloths() {
    Scene scene = room_without_glass();
    scene.title = "room with cloths";
    scene.fixtures.clear();
    Fixture spot = fixture_of(FixtureForm::kSpot, Point(1.8F, 1, 0), Point(0, -0.5F, -1), 1000);
    spot.source_diameter = 0.1F;
    Fixture bare = fixture_of(FixtureForm::kBare, Point(-1.6F, -0.8F, -1.8F), Point(0), 300);
    bare.source_diameter = 0.2F;
    scene.fixtures = {spot, bare};
    const MaterialId dense = add_material(scene, sheet("dense", 0.35F, 0.5F, 0));
    const MaterialId sheer = add_material(scene, sheet("sheer", 0.3F, 0.6F, 0.25F));
    const auto board = [&](const Point& centre, const Point& aim, const Vec2& size, MaterialId id) {
        Board b;
        b.centre = centre;
        b.facing = glm::normalize(aim - centre);
        b.size = size;
        b.material = id;
        scene.boards.push_back(b);
    };
    board(Point(1.1F, 0.4F, -0.4F), spot.position, Vec2(0.9F), dense);
    board(Point(-1.2F, -0.7F, -1.5F), bare.position, Vec2(0.5F, 0.7F), sheer);
    return scene;
}

}  // namespace

TEST_CASE("sheet sampling finds the same light behind cloth as the other techniques" *
          doctest::test_suite("slow")) {
    Scene scene = room_with_cloths();
    add_meters(scene);
    const RenderResult full = render(scene, Transport::kFull, 24, 1, 1);
    const RenderResult camera = render(scene, Transport::kCamera, 32, 0, 2);
    const RenderResult partition = render(scene, Transport::kPartition, 100, 1, 3);
    // One tile shows a lamp; nearly all of the tile's error is from the lamp's rim.
    check_agreement(scene, full, camera, 0.025);
    check_agreement(scene, full, partition, 0.03);
}

TEST_CASE("meters of every kind read the same light behind cloth with and without sheet sampling" *
          doctest::test_suite("slow")) {
    Scene scene = room_with_cloths();
    add_meters(scene);
    const MeterResult full = read_meters_by(scene, Transport::kFull, 16, 4, 64);
    const MeterResult camera = read_meters_by(scene, Transport::kCamera, 32, 5, 64);
    const MeterResult partition = read_meters_by(scene, Transport::kPartition, 64, 6, 64);
    check_agreement(scene, full, camera, 0.01);
    check_agreement(scene, full, partition, 0.02);
}

TEST_CASE("with glass, water, mirrors and cloth the light is the same without weights" *
          doctest::test_suite("slow")) {
    Scene scene = room_with_everything();
    Material metal = lambertian("mirror", 0.9F);
    metal.kind = MaterialKind::kConductor;
    Board mirror;
    mirror.centre = Point(0.5F, 0.2F, -2.3F);
    mirror.facing = glm::normalize(Vec3(-0.1F, 0, 1));
    mirror.size = Vec2(1.5F, 1);
    mirror.material = add_material(scene, metal);
    scene.boards.push_back(mirror);
    const RenderResult full = render(scene, Transport::kFull, 60, 2, 7);
    const RenderResult partition = render(scene, Transport::kPartition, 120, 2, 8);
    check_agreement(scene, full, partition, 0.08);
    add_meters(scene);
    const MeterResult weighted = read_meters_by(scene, Transport::kFull, 20, 9, 64);
    const MeterResult unweighted = read_meters_by(scene, Transport::kPartition, 60, 10, 64);
    check_agreement(scene, weighted, unweighted, 0.05);
}
