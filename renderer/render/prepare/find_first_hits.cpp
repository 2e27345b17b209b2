#include "render/prepare/find_first_hits.h"

#include "base/fill_in_steps.h"
#include "base/parallel.h"
#include "materials/texture_lookup.h"

namespace dapple {

Rgb surface_colour(const Scene& scene, const SurfacePoint& at) {
    const Material& m = scene.materials[static_cast<size_t>(at.material)];
    if (m.kind == MaterialKind::kGlass || m.kind == MaterialKind::kThinGlass) return Rgb(1);
    const Rgb colour = m.vertex_colours ? m.reflectance * at.vertex_colour : m.reflectance;
    if (m.reflectance_texture < 0) return colour;
    const Texture& texture = scene.textures[static_cast<size_t>(m.reflectance_texture)];
    return colour * texture_colour(texture, at.uv);
}

namespace {

constexpr int kRowsPerBlock = 8;

void look_at_pixel(
    const Scene& scene, const World& world, const Lens& lens, int pixel, FirstHits& out) {
    const Vec2 centre(static_cast<float>(pixel % out.width) + 0.5F,
                      static_cast<float>(pixel / out.width) + 0.5F);
    const auto i = static_cast<size_t>(pixel);
    const Ray ray = lens.sample_ray(centre, 0.5F, 0.5F).ray;
    Hit hit;
    if (!world.closest(ray, hit)) return;
    const SurfacePoint at = world.surface_at(ray, hit);
    const float towards = glm::dot(at.shading, ray.direction) < 0.0F ? 1.0F : -1.0F;
    out.normal[i] = towards * at.shading;
    out.depth[i] = glm::dot(at.position - lens.position(), lens.frame().n);
    out.footprint_m[i] = lens.pixel_width_at(out.depth[i]);
    out.surface[i] = at.material;
    if (at.material != kNoMaterial) out.albedo[i] = surface_colour(scene, at);
}

}  // namespace

FirstHits find_first_hits(const Scene& scene,
                          const World& world,
                          const Lens& lens,
                          WorkWatch& watch) {
    FirstHits out;
    out.width = scene.camera.width;
    out.height = scene.camera.height;
    const auto n = static_cast<size_t>(out.width) * static_cast<size_t>(out.height);
    grow_in_steps(out.albedo, n, Rgb(0));
    grow_in_steps(out.normal, n, Normal(0));
    grow_in_steps(out.depth, n, kInfinity);
    grow_in_steps(out.surface, n, kNoMaterial);
    grow_in_steps(out.footprint_m, n, 0.0F);
    watch.start_step(WorkStep::kFirstHits, (out.height + kRowsPerBlock - 1) / kRowsPerBlock);
    parallel_blocks(out.height, kRowsPerBlock, [&](int64_t first, int64_t last) {
        watch.next_block_or_throw();
        const auto end = static_cast<int>(last) * out.width;
        for (auto i = static_cast<int>(first) * out.width; i < end; ++i) {
            look_at_pixel(scene, world, lens, i, out);
        }
    });
    return out;
}

std::vector<PixelSet> find_region_pixels(const Scene& scene, const FirstHits& first_hits) {
    std::vector<PixelSet> sets;
    for (const Region& region : scene.regions) {
        sets.push_back({region.name, find_pixels(first_hits, region.surface, region.rect_px())});
    }
    return sets;
}

}  // namespace dapple
