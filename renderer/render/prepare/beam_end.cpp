#include "render/prepare/beam_end.h"

namespace dapple {

BeamEnd find_beam_end(const Scene& scene, const World& world, const LampLight& light) {
    SurfacePoint at;
    at.position = light.position;
    at.geometric = light.normal;
    for (int passed = 0; passed < 8; ++passed) {
        const Ray ray{offset_origin(at, light.direction), light.direction, 0.0F, kInfinity};
        Hit hit;
        if (!world.closest(ray, hit)) return {};
        at = world.surface_at(ray, hit);
        if (at.lamp >= 0 || at.material == kNoMaterial) return {};
        const Material& material = scene.materials[static_cast<size_t>(at.material)];
        const bool passes = is_see_through(material) && material.kind != MaterialKind::kSheet;
        if (!passes) return {material.kind, at.position};
    }
    return {};
}

}  // namespace dapple
