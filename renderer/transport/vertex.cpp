#include "transport/vertex.h"

#include <cmath>

namespace dapple {

void Vertex::face(const Direction& ray_direction) {
    local_.reset();
    wo_world = -ray_direction;
    mesh_shading = at.shading;
    const float side = glm::dot(at.geometric, wo_world);
    shading_faces_away = glm::dot(at.shading, wo_world) * side <= 0.0F;
    if (shading_faces_away) at.shading = at.geometric;
    cos_geometric = std::abs(side);
}

void Vertex::make_local_frame() {
    Local& local = local_.emplace();
    local.frame = Frame(at.shading);
    local.wo = local.frame.to_local(wo_world);
}

bool see_vertex(const Stage& stage,
                const Direction& direction,
                const SurfacePoint& at,
                int hero,
                Vertex& vertex) {
    if (at.material == kNoMaterial) return false;
    vertex.at = at;
    vertex.face(direction);
    vertex.make_local_frame();
    if (vertex.cos_geometric <= 0.0F) return false;
    make_bsdf(stage.materials, at.material, at.uv, {}, hero, vertex.bsdf);
    return true;
}

bool is_boundary(const Stage& stage, MaterialId id) {
    return stage.scene.materials[static_cast<size_t>(id)].kind == MaterialKind::kGlass;
}

bool may_merge(const Stage& stage, const Vertex& vertex) {
    return !is_delta(vertex.bsdf) && !is_boundary(stage, vertex.at.material);
}

float pass_probability(const Vertex& vertex) {
    return vertex.smooth_glass() ? 0.0F : straight_through_probability(vertex.bsdf, vertex.wo());
}

bool sides_agree(const Vertex& vertex, const Direction& direction_world, float local_z) {
    return glm::dot(vertex.at.geometric, direction_world) * local_z > 0.0F;
}

}  // namespace dapple
