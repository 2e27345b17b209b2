#include "geometry/world.h"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "base/random.h"

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

}  // namespace dapple
