#include "plausible/light/seen_frame.h"

#include <algorithm>

#include "base/parallel.h"

namespace dapple {

namespace {

constexpr int kSpotsAcross = 120;
constexpr int kMostPanes = 64;

bool is_clear_glass(const Scene& scene, MaterialId id) {
    if (id == kNoMaterial) return false;
    const Material& m = scene.materials[static_cast<size_t>(id)];
    return m.kind == MaterialKind::kGlass || m.kind == MaterialKind::kThinGlass || m.opacity < 1;
}

}  // namespace

SeenSpot see_spot(const StagedSet& set, const Vec2& raster) {
    Ray ray = set.lens.sample_ray(raster, 0.5F, 0.5F).ray;
    SeenSpot spot;
    spot.direction = ray.direction;
    for (int i = 0; i < kMostPanes; ++i) {
        Hit hit;
        if (!set.world.closest(ray, hit)) break;
        spot.at = set.world.surface_at(ray, hit);
        spot.thing = set.world.thing_at(spot.at);
        if (!spot.meets) {
            spot.first = spot.thing;
            spot.first_material = spot.at.material;
            spot.first_distance = glm::length(spot.at.position - set.lens.position());
        }
        spot.meets = true;
        if (!is_clear_glass(set.scene, spot.at.material)) break;
        ray.origin = offset_origin(spot.at, ray.direction);
    }
    return spot;
}

SeenFrame see_frame(const StagedSet& set) {
    const Camera& camera = set.scene.camera;
    SeenFrame frame;
    frame.across = std::min(kSpotsAcross, camera.width);
    frame.down = std::max(1, frame.across * camera.height / camera.width);
    frame.spots.resize(static_cast<size_t>(frame.across) * static_cast<size_t>(frame.down));
    const Vec2 step(static_cast<float>(camera.width) / static_cast<float>(frame.across),
                    static_cast<float>(camera.height) / static_cast<float>(frame.down));
    parallel_blocks(
        static_cast<int64_t>(frame.spots.size()), 512, [&](int64_t first, int64_t last) {
            for (int64_t i = first; i < last; ++i) {
                const Vec2 at(static_cast<float>(i % frame.across),
                              static_cast<float>(i / frame.across));
                frame.spots[static_cast<size_t>(i)] = see_spot(set, (at + Vec2(0.5F)) * step);
            }
        });
    return frame;
}

}  // namespace dapple
