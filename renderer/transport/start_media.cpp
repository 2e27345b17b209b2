#include "transport/start_media.h"

#include <algorithm>
#include <array>

namespace dapple {

namespace {

constexpr int kMaxCrossings = 4096;  // of one ray with surfaces; far more than any set has

// Per material: how many of its solids the ray leaves without having entered them.
std::vector<int> count_solids(const Scene& scene, const World& world, Ray ray) {
    std::vector<int> solids(scene.materials.size(), 0);
    Hit hit;
    for (int i = 0; i < kMaxCrossings && world.closest(ray, hit); ++i) {
        const SurfacePoint at = world.surface_at(ray, hit);
        if (at.lamp < 0 && at.material != kNoMaterial) {
            const auto id = static_cast<size_t>(at.material);
            const bool leaving = glm::dot(at.geometric, ray.direction) > 0.0F;
            if (scene.materials[id].kind == MaterialKind::kGlass) {
                solids[static_cast<size_t>(medium_of(scene, at.material))] += leaving ? 1 : -1;
            }
        }
        ray.origin = offset_origin(at, ray.direction);
    }
    return solids;
}

int middle(int a, int b, int c) {
    return std::max(std::min(a, b), std::min(std::max(a, b), c));
}

// A point of the lamp that is not on the body of its fixture.
Point inside_lamp(const Fixture& fixture) {
    constexpr float kInFront = 1e-4F;  // m
    return fixture.form == FixtureForm::kBare ? fixture.position
                                              : fixture.position + kInFront * fixture.axis;
}

}  // namespace

MediumStack find_media(const Scene& scene, const World& world, const Point& point) {
    MediumStack media;
    const bool any = std::any_of(scene.materials.begin(),
                                 scene.materials.end(),
                                 [](const Material& m) { return m.kind == MaterialKind::kGlass; });
    if (!any) return media;
    // These directions are not along an edge or a diagonal of anything that stands upright.
    const std::array<Vec3, 3> directions{
        Vec3(0.37F, 0.89F, 0.21F), Vec3(-0.83F, -0.43F, 0.59F), Vec3(0.47F, -0.31F, -0.97F)};
    std::array<std::vector<int>, 3> solids;
    for (size_t i = 0; i < 3; ++i) {
        solids[i] = count_solids(scene, world, Ray{point, glm::normalize(directions[i])});
    }
    for (size_t id = 0; id < scene.materials.size(); ++id) {
        const int around = middle(solids[0][id], solids[1][id], solids[2][id]);
        for (int i = 0; i < around; ++i) media.enter(scene, static_cast<MaterialId>(id));
    }
    return media;
}

StartMedia find_start_media(const Scene& scene, const World& world) {
    StartMedia start;
    start.lens = find_media(scene, world, scene.camera.position);
    for (const Fixture& fixture : scene.fixtures) {
        start.lamps.push_back(find_media(scene, world, inside_lamp(fixture)));
    }
    return start;
}

}  // namespace dapple
