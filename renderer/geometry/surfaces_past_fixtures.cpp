#include "geometry/surfaces_past_fixtures.h"

#include <algorithm>

namespace dapple {

namespace {

constexpr int kMostHits = 256;

// Neither see-through nor glass or cloth, which light passes scattered or bent.
bool is_opaque(const Material& m) {
    return !is_see_through(m) && m.kind != MaterialKind::kGlass && m.kind != MaterialKind::kSheet;
}

}  // namespace

bool is_of_fixture(const Scene& scene, const SurfacePoint& at) {
    return at.lamp >= 0 || at.material == scene.housing_material;
}

bool closest_past_fixtures(const Scene& scene, const World& world, Ray ray, SurfacePoint& at) {
    for (int i = 0; i < kMostHits; ++i) {
        Hit hit;
        if (!world.closest(ray, hit)) return false;
        at = world.surface_at(ray, hit);
        if (!is_of_fixture(scene, at)) return true;
        ray.origin = offset_origin(at, ray.direction);
    }
    return false;
}

std::vector<MetSurface> surfaces_past_fixtures(const Scene& scene,
                                               const World& world,
                                               const Ray& ray) {
    std::vector<MetSurface> met;
    Ray rest = ray;
    SurfacePoint at;
    for (int i = 0; i < kMostHits && closest_past_fixtures(scene, world, rest, at); ++i) {
        if (at.material == kNoMaterial) break;
        const Material& material = scene.materials[static_cast<size_t>(at.material)];
        const bool is_listed = std::any_of(
            met.begin(), met.end(), [&](const MetSurface& m) { return m.name == material.name; });
        const bool is_liquid =
            material.kind == MaterialKind::kGlass && material.glass == GlassType::kWater;
        if (!is_listed && !is_liquid) {
            met.push_back({material.name, glm::length(at.position - ray.origin)});
        }
        if (is_opaque(material)) break;
        rest.origin = offset_origin(at, ray.direction);
    }
    return met;
}

}  // namespace dapple
