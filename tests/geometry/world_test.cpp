#include "geometry/world.h"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "base/random.h"
#include "base/units.h"

namespace dapple {

namespace {

constexpr float kThickness = 0.004F;  // m

void add_face(Mesh& mesh, const Frame& frame, float half, float height, bool up) {
    const auto first = static_cast<unsigned>(mesh.positions.size());
    for (const Vec2& p : {Vec2(-1, -1), Vec2(1, -1), Vec2(1, 1), Vec2(-1, 1)}) {
        mesh.positions.push_back(frame.to_world(Vec3(half * p.x, half * p.y, height)));
    }
    const auto corner = [&](unsigned i) { return first + i; };
    mesh.triangles.emplace_back(corner(0), corner(up ? 1 : 2), corner(up ? 2 : 1));
    mesh.triangles.emplace_back(corner(0), corner(up ? 2 : 3), corner(up ? 3 : 2));
    mesh.materials.insert(mesh.materials.end(), 2, 0);
}

// A ball of radius 1 m made of `rings` by 2 `rings` patches.
Mesh ball_at(const Point& centre, unsigned rings) {
    constexpr auto kHalfTurn = static_cast<float>(kPi);
    Mesh mesh;
    const unsigned around = 2 * rings;
    for (unsigned i = 0; i <= rings; ++i) {
        const float theta = kHalfTurn * static_cast<float>(i) / static_cast<float>(rings);
        for (unsigned j = 0; j < around; ++j) {
            const float phi = 2 * kHalfTurn * static_cast<float>(j) / static_cast<float>(around);
            mesh.positions.push_back(centre + Vec3(std::sin(theta) * std::cos(phi),
                                                   std::cos(theta),
                                                   std::sin(theta) * std::sin(phi)));
        }
    }
    for (unsigned i = 0; i < rings; ++i) {
        for (unsigned j = 0; j < around; ++j) {
            const auto corner = [&](unsigned di, unsigned dj) {
                return (i + di) * around + (j + dj) % around;
            };
            mesh.triangles.emplace_back(corner(0, 0), corner(1, 0), corner(1, 1));
            mesh.triangles.emplace_back(corner(0, 0), corner(1, 1), corner(0, 1));
        }
    }
    mesh.materials.assign(mesh.triangles.size(), 0);
    return mesh;
}

// Two large faces in two triangles each, aslant, with the world's origin between them.
Scene large_plate(const Frame& frame, float half) {
    Scene scene;
    scene.materials.emplace_back();
    Mesh mesh;
    add_face(mesh, frame, half, 0.5F * kThickness, true);
    add_face(mesh, frame, half, -0.5F * kThickness, false);
    scene.room.push_back(mesh);
    return scene;
}

}  // namespace

TEST_CASE("a ray that leaves a large face aslant near the origin does not meet it again") {
    constexpr int kRays = 20000;
    const Frame frame(glm::normalize(Vec3(0.6F, 0.5F, 0.33F)));
    for (const float half : {0.1F, 1.0F, 3.0F, 10.0F, 30.0F}) {
        CAPTURE(half);
        const Scene scene = large_plate(frame, half);
        const World world(scene);
        RandomStream random(1, 0, 0, Purpose::kCameraWalk);
        const auto number = [&] { return 2.0F * random.next() - 1.0F; };
        int through = 0;
        int straight_through = 0;
        int back = 0;
        for (int i = 0; i < kRays; ++i) {
            const Vec3 target{0.05F * number(), 0.05F * number(), 0};
            const Vec3 from{0.5F * number(), 0.5F * number(), 1};
            Ray ray;
            ray.direction = -glm::normalize(frame.to_world(from));
            ray.origin = frame.to_world(target) - 0.3F * ray.direction;
            Hit hit;
            REQUIRE(world.closest(ray, hit));
            const SurfacePoint at = world.surface_at(ray, hit);
            const Ray straight_on{world.origin_behind(ray, hit), ray.direction};
            // Straight on through the plate, the next face is the other one.
            const Ray on{offset_origin(at, ray.direction), ray.direction};
            if (world.closest(on, hit) && hit.t > 0.9F * kThickness) ++through;
            if (world.closest(straight_on, hit) && hit.t > 0.9F * kThickness) ++straight_through;
            // Mirrored: nothing is there.
            const Direction mirrored = glm::reflect(ray.direction, at.geometric);
            if (!world.blocked(Ray{offset_origin(at, mirrored), mirrored})) ++back;
        }
        CHECK(through == kRays);
        CHECK(straight_through == kRays);
        CHECK(back == kRays);
    }
}

TEST_CASE("a hit has the material and the outer side of its surface point") {
    const Frame frame(glm::normalize(Vec3(0.6F, 0.5F, 0.33F)));
    Scene scene = large_plate(frame, 1.0F);
    for (int i = 0; i < 2; ++i) scene.materials.emplace_back();
    Mesh other;  // of two materials
    add_face(other, frame, 1.0F, 0.3F, true);
    add_face(other, frame, 1.0F, -0.3F, false);
    other.materials = {0, 1, 2, 2};
    scene.room.push_back(other);
    Fixture lamp;
    lamp.position = frame.to_world(Vec3(0, 0, 0.6F));
    lamp.axis = -frame.n;
    lamp.source_diameter = 0.2F;
    lamp.form = FixtureForm::kBare;
    scene.fixtures.push_back(lamp);
    const World world(scene);
    RandomStream random(1, 0, 0, Purpose::kCameraWalk);
    const auto number = [&] { return 2.0F * random.next() - 1.0F; };
    std::vector<int> met(4);  // lamps, and by material
    for (int i = 0; i < 20000; ++i) {
        Ray ray;
        ray.origin = Point(number(), number(), number());
        ray.direction = glm::normalize(Vec3(number(), number(), number()));
        Hit hit;
        if (!world.closest(ray, hit)) continue;
        const SurfacePoint at = world.surface_at(ray, hit);
        CHECK(world.material_at(hit) == at.material);
        CHECK(glm::dot(glm::normalize(hit.normal), at.geometric) > 0.9999F);
        ++met[static_cast<size_t>(at.material + 1)];
    }
    for (const int times : met) CHECK(times > 10);
}

TEST_CASE("hardly any shadow ray, and no other ray, slips through a closed mesh") {
    constexpr int kRays = 200000;
    const Point centre(4, 1, -3);
    Scene scene;
    for (int i = 0; i < 2; ++i) scene.materials.emplace_back();
    scene.materials[1].opacity = 0.5F;
    scene.room.push_back(ball_at(centre, 150));
    // With a see-through body, shadow rays have a tree of their own.
    Mesh sheet;
    add_face(sheet, Frame(Direction(0, 1, 0)), 0.5F, 8, true);
    sheet.materials = {1, 1};
    scene.room.push_back(sheet);
    const World world(scene);
    RandomStream random(1, 0, 0, Purpose::kCameraWalk);
    const auto number = [&] { return 2.0F * random.next() - 1.0F; };
    int shadows_past = 0;
    int past = 0;
    for (int i = 0; i < kRays; ++i) {
        const Point inside = centre + 0.5F * Vec3(number(), number(), number());
        const Point outside = 6.0F * Point(number(), number(), number());
        if (glm::length(outside - centre) < 1.1F) continue;
        // From outside, where a triangle is small and its corners are far from the ray's origin.
        const Ray ray{outside, glm::normalize(inside - outside)};
        Hit hit;
        if (!world.closest(ray, hit)) ++past;
        if (!world.blocked(ray)) ++shadows_past;
    }
    CHECK(past == 0);
    // A shadow ray is computed in floats, and errs near the edges of triangles.
    CHECK(shadows_past <= kRays / 20000);
}

}  // namespace dapple
