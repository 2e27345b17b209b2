#include "render/prepare/sight.h"

#include <algorithm>
#include <limits>

#include "math/box_ray.h"
#include "render/prepare/find_first_hits.h"
#include "transport/walk.h"

namespace dapple {

namespace {

constexpr float kPassOn = 0.9999F;  // as a random number: chooses refraction

// The colour by which the clean frame divides what is seen at a surface. Haze dims the surface and
// adds light of its own, which knows nothing of the surface's colour.
Rgb seen_colour(const Setup& setup, const SurfacePoint& at) {
    const Rgb colour = surface_colour(setup.scene, at);
    if (!setup.haze) return colour;
    const Vec3 way = at.position - setup.lens.position();
    const float length = glm::length(way);
    const float passes = setup.haze->transmittance(setup.lens.position(), way / length, length);
    return passes * colour + (1.0F - passes);
}

}  // namespace

Sight::Sight(const Setup& setup, const Lens& lens)
    : setup_(setup),
      lens_(lens),
      wavelengths_(make_pass_wavelengths(0, 0)),
      materials_(setup.materials, wavelengths_),
      stage_(setup.stage(materials_, no_light_walks(setup), 0, 0)) {}

SeenPoint Sight::look(const Vec2& raster, const Vec2& aperture) const {
    const Ray ray = lens_.sample_ray(raster, aperture.x, aperture.y).ray;
    SeenPoint seen = first_surface(ray);
    if (may_look_on(seen.surface)) look_on(ray, seen);
    return seen;
}

float Sight::first_depth(const Vec2& raster, const Vec2& aperture) const {
    const Ray ray = lens_.sample_ray(raster, aperture.x, aperture.y).ray;
    Hit hit;
    if (!setup_.world.closest(ray, hit)) return std::numeric_limits<float>::infinity();
    const SurfacePoint at = setup_.world.surface_at(ray, hit);
    return glm::dot(at.position - lens_.position(), lens_.frame().n);
}

bool Sight::is_clear_of(const std::vector<Bounds>& bounds,
                        const Vec2& raster,
                        const SeenPoint& seen) const {
    const auto materials = static_cast<int32_t>(setup_.scene.materials.size());
    if (seen.surface >= materials || may_look_on(seen.surface)) return false;
    const Ray ray = lens_.sample_ray(raster, 0.5F, 0.5F).ray;
    return std::none_of(bounds.begin(), bounds.end(), [&](const Bounds& box) {
        return !box.empty() && meets(box, ray.origin, ray.direction);
    });
}

SeenPoint Sight::first_surface(const Ray& ray) const {
    SeenPoint seen;
    Hit hit;
    if (!setup_.world.closest(ray, hit)) return seen;
    const SurfacePoint at = setup_.world.surface_at(ray, hit);
    seen.position = at.position;
    seen.normal = glm::dot(at.shading, ray.direction) < 0.0F ? at.shading : -at.shading;
    seen.footprint_m =
        lens_.pixel_width_at(glm::dot(at.position - lens_.position(), lens_.frame().n));
    seen.surface = at.material;
    if (at.material != kNoMaterial) {
        seen.albedo = seen_colour(setup_, at);
    }
    return seen;
}

bool Sight::may_look_on(MaterialId id) const {
    if (id == kNoMaterial) return false;
    const MaterialKind kind = setup_.scene.materials[static_cast<size_t>(id)].kind;
    return kind == MaterialKind::kGlass || kind == MaterialKind::kThinGlass ||
           kind == MaterialKind::kConductor;
}

// At each smooth surface it looks on to where light passes, or where none passes, to where it is
// reflected.
void Sight::look_on(const Ray& ray, SeenPoint& seen) const {
    RandomStream random(0, 0, 0, Purpose::kPilot);
    Walk walk;
    walk.ray = ray;
    walk.media = stage_.start.lens;
    walk.light.hero = kSpectrumSize / 2;
    Vertex vertex;
    float length = 0;
    uint64_t way = 0;  // the surfaces on the way
    while (find_next_vertex(stage_, walk, vertex)) {
        if (!vertex.is_lamp() && is_delta(vertex.bsdf)) {
            length += walk.edge_length;
            way = mix_bits(way, static_cast<uint64_t>(vertex.at.material));
            const ScatterResult result = scatter(
                stage_, walk, vertex, Carrying::kRadiance, Vec3(0.5F, 0.5F, kPassOn), random);
            if (result == ScatterResult::kEnded) return;
            continue;
        }
        if (way == 0) return;  // nothing smooth on the way
        length += walk.edge_length;
        seen.position = vertex.at.position;
        seen.normal = glm::dot(vertex.at.shading, vertex.wo_world) > 0.0F ? vertex.at.shading
                                                                          : -vertex.at.shading;
        seen.footprint_m = lens_.pixel_width_at(length);
        way = mix_bits(way, static_cast<uint64_t>(vertex.at.material + 2));
        seen.surface = static_cast<int32_t>((way & 0x3FFFFFFFU) | 0x40000000U);
        if (!vertex.is_lamp()) {
            seen.albedo = seen_colour(setup_, vertex.at);
        }
        return;
    }
}

}  // namespace dapple
