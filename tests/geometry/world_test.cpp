#include "geometry/world.h"

#include <doctest/doctest.h>

#include <cmath>

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
            // On through the plate: the next face is its other one.
            const Ray on{offset_origin(at, ray.direction), ray.direction};
            if (world.closest(on, hit) && hit.t > 0.9F * kThickness) ++through;
            // Mirrored: nothing is there.
            const Direction mirrored = glm::reflect(ray.direction, at.geometric);
            if (!world.blocked(Ray{offset_origin(at, mirrored), mirrored})) ++back;
        }
        CHECK(through == kRays);
        CHECK(back == kRays);
    }
}

}  // namespace dapple
