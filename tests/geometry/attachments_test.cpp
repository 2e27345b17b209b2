// Barn doors and snoots cut the beam as plane geometry predicts, with the penumbra of the source.
#include <doctest/doctest.h>

#include <cmath>

#include "geometry/make_attachments.h"
#include "geometry/world.h"
#include "math/warps.h"

using namespace dapple;

namespace {

constexpr float kWall = 2.0F;     // m, from the source
constexpr float kSource = 0.04F;  // m, diameter

Scene lamp_scene() {
    Scene scene;
    Fixture f;
    f.name = "lamp";
    f.axis = Direction(0, 0, -1);
    f.beam_angle = 1;
    f.field_angle = 1.4F;
    f.source_diameter = kSource;
    f.housing_diameter = 0.1F;
    f.housing_length = 0.15F;
    scene.fixtures.push_back(f);
    scene.materials.emplace_back();
    scene.housing_material = 0;
    return scene;
}

// Whether the place on the wall sees the point of the source. Both are given as seen from behind
// the lamp: x to the right, y up.
bool sees(const World& world, const Vec2& wall, const Vec2& source) {
    const Point from(wall.x, wall.y, -kWall);
    const Vec3 way = Point(source.x, source.y, 0) - from;
    const float length = glm::length(way);
    // To just in front of the lamp's own face.
    return !world.blocked({from, way / length, 1e-4F, length - 1e-3F});
}

// The distance from `lit` towards `dark`, on the wall, at which `source` is no longer seen.
float edge_of(const World& world, const Vec2& source, Vec2 lit, Vec2 dark) {
    REQUIRE(sees(world, lit, source));
    REQUIRE_FALSE(sees(world, dark, source));
    const Vec2 start = lit;
    for (int i = 0; i < 24; ++i) {
        const Vec2 middle = 0.5F * (lit + dark);
        (sees(world, middle, source) ? lit : dark) = middle;
    }
    return glm::length(0.5F * (lit + dark) - start);
}

}  // namespace

TEST_CASE("a barn door's shadow and penumbra are those of plane geometry") {
    for (const double degrees : {75.0, 90.0, 110.0}) {
        Scene scene = lamp_scene();
        const auto a = static_cast<float>(radians_from_degrees(degrees));
        scene.fixtures[0].barn_doors = {a, a, a, a};
        const World world(scene);
        // The leaf's edge: a hinge 50 mm from the axis, a leaf of 75 mm.
        const float leaf = 0.1F * kLeafPerOpening;
        for (int i = 0; i < 4; ++i) {
            const Vec2 out(i == 0 ? -1 : i == 1 ? 1 : 0, i == 2 ? 1 : i == 3 ? -1 : 0);
            const float x = 0.05F - leaf * std::cos(a);
            const float z = kAttachmentGap + 0.5e-3F * static_cast<float>(i) + leaf * std::sin(a);
            const auto shadow = [&](float s) { return s + (x - s) * kWall / z; };
            // Sources on the line through the axis, from the far rim to the near one.
            const float far_rim = -0.5F * kSource;
            const float near_rim = 0.5F * kSource;
            const float outer = edge_of(world, far_rim * out, Vec2(0), 8.0F * out);
            const float inner = edge_of(world, near_rim * out, Vec2(0), 8.0F * out);
            CAPTURE(degrees);
            CAPTURE(i);
            // Bisection in floats over metres, and 1 part in 10⁴ for the mesh.
            CHECK(outer == doctest::Approx(shadow(far_rim)).epsilon(1e-4));
            CHECK(inner == doctest::Approx(shadow(near_rim)).epsilon(1e-4));
            // Penumbra: source × distance behind the edge / distance in front of it.
            CHECK(outer - inner == doctest::Approx(kSource * (kWall - z) / z).epsilon(1e-3));
        }
    }
}

TEST_CASE("shut barn doors let no light out and doors folded back block none") {
    Scene scene = lamp_scene();
    scene.fixtures[0].barn_doors = {0, 0, 0, 0};
    const World shut(scene);
    const float back = kPiF;
    scene.fixtures[0].barn_doors = {back, back, back, back};
    const World open(scene);
    for (int i = 0; i < 400; ++i) {
        const float u = (static_cast<float>(i % 20) + 0.5F) / 20;
        const float v = (static_cast<float>(i / 20) + 0.5F) / 20;
        const Vec2 wall = 3.0F * sample_disk(u, v);
        const Vec2 source = 0.019F * sample_disk(v, u);
        CHECK_FALSE(sees(shut, wall, source));
        CHECK(sees(open, wall, source));
    }
}

TEST_CASE("a snoot's pool of light and penumbra are those of plane geometry") {
    Scene scene = lamp_scene();
    scene.fixtures[0].snoot_diameter = 0.06F;
    scene.fixtures[0].snoot_length = 0.2F;
    const World world(scene);
    const float z = 0.2F;
    for (const double phi : {0.3, 1.7, 4.0}) {
        const Vec2 out(std::cos(phi), std::sin(phi));
        const auto shadow = [&](float s) { return s + (0.03F - s) * kWall / z; };
        const float outer = edge_of(world, -0.5F * kSource * out, Vec2(0), 8.0F * out);
        const float inner = edge_of(world, 0.5F * kSource * out, Vec2(0), 8.0F * out);
        // 128 flats for a circle: its radius varies by 3 parts in 10⁴.
        CHECK(outer == doctest::Approx(shadow(-0.5F * kSource)).epsilon(5e-4));
        CHECK(inner == doctest::Approx(shadow(0.5F * kSource)).epsilon(2e-3));
        CHECK(outer - inner == doctest::Approx(kSource * (kWall - z) / z).epsilon(1e-3));
    }
    // No light passes beside the tube: the plate closes the gap to the housing.
    for (float x = 0.8F; x < 6; x += 0.1F) CHECK_FALSE(sees(world, Vec2(x, 0), Vec2(0.019F, 0)));
}

TEST_CASE("doors turn with their fixture") {
    Scene scene = lamp_scene();
    const float open = kPiF;
    scene.fixtures[0].barn_doors = {open, 0.5F * kPiF, open, open};  // the right one cuts
    scene.fixtures[0].turn = static_cast<float>(radians_from_degrees(90));
    const World world(scene);
    CHECK(sees(world, Vec2(6, 0), Vec2(0)));
    CHECK_FALSE(sees(world, Vec2(0, 6), Vec2(0)));  // anticlockwise from behind: now on top
}

TEST_CASE("a stand reaches from the fixture to the floor and not into its light") {
    Scene scene = lamp_scene();
    Mesh floor;
    floor.positions = {Point(-9, -1.5F, -9), Point(-9, -1.5F, 9), Point(9, -1.5F, 9)};
    floor.triangles = {glm::uvec3(0, 1, 2)};
    floor.materials = {0};
    scene.room.push_back(floor);
    Fixture& f = scene.fixtures[0];
    f.position = Point(-1, 0.3F, 0);
    REQUIRE(floor_below(scene.room, f.position).has_value());
    CHECK(*floor_below(scene.room, f.position) == doctest::Approx(-1.5));
    CHECK_FALSE(floor_below(scene.room, Point(20, 0, 0)).has_value());
    CHECK_FALSE(floor_below(scene.room, Point(-1, -2, 0)).has_value());
    const Mesh stand = make_stand(f, -1.5F, 0);
    Bounds bounds;
    for (const Point& p : stand.positions) {
        bounds.add(p);
        CHECK(p.z > f.position.z - 0.5F);
    }
    CHECK(bounds.low.y == doctest::Approx(-1.5).epsilon(0.01));
    CHECK(bounds.high.y == doctest::Approx(0.25));
    CHECK(make_stand(f, 0.29F, 0).triangles.empty());
    f.stand = true;
    const World world(scene);
    Hit hit;
    CHECK(world.closest({Point(-1, -0.5F, 2), Direction(0, 0, -1), 0, kInfinity}, hit));
}
