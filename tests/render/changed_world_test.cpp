// A world that changes with the scene is the world of the scene.
#include <doctest/doctest.h>

#include <cmath>

#include "geometry/world.h"
#include "math/sequences.h"
#include "math/warps.h"
#include "render/scene_changes.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr uint32_t kRays = 4000;

Ray ray_number(uint32_t i) {
    const auto u = sobol_owen_4d(i, 3);
    const auto v = sobol_owen_4d(i, 4);
    const Point from(3.6F * u[0] - 1.8F, 2.8F * u[1] - 1.4F, 4.6F * u[2] - 2.3F);
    return {from, sample_sphere(v[0], v[1]), 1e-4F, kInfinity};
}

struct Found {
    bool is_hit = false, is_blocked = false, sees_through = false;
    Hit hit, through;
    MaterialId material = kNoMaterial;
};

Found look(const World& world, const Ray& ray) {
    Found found;
    found.is_hit = world.closest(ray, found.hit);
    if (found.is_hit) found.material = world.surface_at(ray, found.hit).material;
    Ray shorter = ray;
    shorter.t_max = 1.5F;
    found.is_blocked = world.blocked(shorter);
    found.sees_through = world.closest_see_through(ray, found.through);
    return found;
}

bool is_same_hit(const Hit& a, const Hit& b) {
    return a.t == b.t && a.body == b.body && a.triangle == b.triangle && a.u == b.u && a.v == b.v;
}

// Rays that find something else in the two worlds.
int count_different(const World& a, const World& b) {
    int different = 0;
    for (uint32_t i = 0; i < kRays; ++i) {
        const Found x = look(a, ray_number(i));
        const Found y = look(b, ray_number(i));
        const bool is_same = x.is_hit == y.is_hit && (!x.is_hit || is_same_hit(x.hit, y.hit)) &&
                             x.material == y.material && x.is_blocked == y.is_blocked &&
                             x.sees_through == y.sees_through &&
                             (!x.sees_through || is_same_hit(x.through, y.through));
        different += is_same ? 0 : 1;
    }
    return different;
}

// Rays whose first hits are apart by more than rounding. At the meeting of two triangles either
// may be found.
int count_apart(const World& a, const World& b) {
    int apart = 0;
    for (uint32_t i = 0; i < kRays; ++i) {
        const Found x = look(a, ray_number(i));
        const Found y = look(b, ray_number(i));
        const bool is_near = x.is_hit == y.is_hit &&
                             (!x.is_hit || std::abs(x.hit.t - y.hit.t) <= 1e-5F * x.hit.t) &&
                             x.is_blocked == y.is_blocked;
        apart += is_near ? 0 : 1;
    }
    return apart;
}

}  // namespace

TEST_CASE("after each change a world finds what one made anew finds" *
          doctest::test_suite("slow")) {
    for (const SceneChange& change : scene_changes()) {
        CAPTURE(change.what);
        Scene scene = room_with_everything();
        World world(scene, WorldUse::kChanging);
        change.apply(scene);
        world.change_to(scene);
        CHECK(count_different(world, World(scene, WorldUse::kChanging)) == 0);
        // Shadow rays of the other kind may slip through between triangles (kernel_scenes.h).
        CHECK(count_apart(world, World(scene)) <= 1);
        CHECK(world.triangles() == World(scene).triangles());
    }
}

TEST_CASE("a world that goes through all changes and back is the first one") {
    const Scene first = room_with_everything();
    World world(first, WorldUse::kChanging);
    for (const SceneChange& change : scene_changes()) {
        Scene scene = room_with_everything();
        change.apply(scene);
        world.change_to(scene);
    }
    world.change_to(first);
    CHECK(count_different(world, World(first, WorldUse::kChanging)) == 0);
}

TEST_CASE("only what has changed gets new trees") {
    Scene scene = room_with_everything();
    World world(scene, WorldUse::kChanging);
    CHECK(world.change_to(scene) == 0);
    scene.camera.position.x += 0.1F;
    CHECK(world.change_to(scene) == 0);
    scene.glasses[0].position.x += 0.1F;
    CHECK(world.change_to(scene) == 1);
    scene.glasses[2].position.x += 0.1F;  // the tumbler and its water
    CHECK(world.change_to(scene) == 2);
}

TEST_CASE("what keeps its triangles but not its normals or colours is made anew") {
    Scene scene = room_with_everything();
    World world(scene, WorldUse::kChanging);
    Mesh& mesh = scene.room.front();
    mesh.normals.assign(mesh.positions.size(), glm::normalize(Normal(1, 2, 3)));
    for (MaterialId& material : mesh.materials) material = scene.housing_material;
    world.change_to(scene);
    const World anew(scene, WorldUse::kChanging);
    int different = 0;
    for (uint32_t i = 0; i < kRays; ++i) {
        Hit hit;
        if (!world.closest(ray_number(i), hit)) continue;
        const SurfacePoint a = world.surface_at(ray_number(i), hit);
        const SurfacePoint b = anew.surface_at(ray_number(i), hit);
        different += a.shading == b.shading && a.material == b.material ? 0 : 1;
    }
    CHECK(different == 0);
}

TEST_CASE("a glass that is moved, turned and squashed in many steps is one made anew") {
    Scene scene = room_with_everything();
    World world(scene, WorldUse::kChanging);
    for (int step = 0; step < 12; ++step) {
        GlassObject& glass = scene.glasses[0];
        glass.position += Vec3(0.09F, 0.02F, -0.06F);
        glass.turn += 0.7F;
        glass.tilt += 0.2F;
        glass.diameter *= 0.97F;
        CHECK(world.change_to(scene) == 1);
    }
    CHECK(count_different(world, World(scene, WorldUse::kChanging)) == 0);
}

TEST_CASE("a thing in the middle of the list that comes and goes moves nothing else") {
    Scene scene = room_with_everything();
    World world(scene, WorldUse::kChanging);
    const GlassObject glass = scene.glasses[1];
    for (int turn = 0; turn < 3; ++turn) {
        scene.glasses.erase(scene.glasses.begin() + 1);
        world.change_to(scene);
        CHECK(count_different(world, World(scene, WorldUse::kChanging)) == 0);
        scene.glasses.insert(scene.glasses.begin() + 1, glass);
        world.change_to(scene);
        CHECK(count_different(world, World(scene, WorldUse::kChanging)) == 0);
    }
}
