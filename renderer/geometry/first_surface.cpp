#include "geometry/first_surface.h"

#include <algorithm>

namespace dapple {

namespace {

constexpr int kMostHits = 256;

bool lets_light_pass(const Material& m) {
    return is_see_through(m) || m.kind == MaterialKind::kGlass || m.kind == MaterialKind::kSheet;
}

}  // namespace

bool is_of_fixture(const Scene& scene, const SurfacePoint& at) {
    return at.lamp >= 0 || at.material == scene.housing_material;
}

bool first_surface(const Scene& scene, const World& world, Ray ray, SurfacePoint& at) {
    for (int i = 0; i < kMostHits; ++i) {
        Hit hit;
        if (!world.closest(ray, hit)) return false;
        at = world.surface_at(ray, hit);
        if (!is_of_fixture(scene, at)) return true;
        ray.origin = offset_origin(at, ray.direction);
    }
    return false;
}

std::vector<MetSurface> surfaces_along(const Scene& scene, const World& world, const Ray& ray) {
    std::vector<MetSurface> met;
    Ray rest = ray;
    SurfacePoint at;
    for (int i = 0; i < kMostHits && first_surface(scene, world, rest, at); ++i) {
        if (at.material == kNoMaterial) break;
        const Material& material = scene.materials[static_cast<size_t>(at.material)];
        const bool is_known = std::any_of(
            met.begin(), met.end(), [&](const MetSurface& m) { return m.name == material.name; });
        const bool passes = lets_light_pass(material);
        const bool is_liquid =
            material.kind == MaterialKind::kGlass && material.glass == GlassType::kWater;
        if (!is_known && !is_liquid) {
            met.push_back({material.name, glm::length(at.position - ray.origin), passes});
        }
        if (!passes) break;
        rest.origin = offset_origin(at, ray.direction);
    }
    return met;
}

}  // namespace dapple
