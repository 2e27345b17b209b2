// A surface point that a walk has reached, with the data for scattering and joining there.
#pragma once

#include <cassert>
#include <cmath>
#include <optional>

#include "materials/bsdf.h"
#include "math/vec.h"
#include "transport/stage.h"

namespace dapple {

struct Vertex {
    SurfacePoint at;
    Normal mesh_shading{0, 0, 1};  // the interpolated normal of the mesh
    // mesh_shading faces away from where the walk came from. at.shading is then the geometric
    // normal.
    bool shading_faces_away = false;
    Direction wo_world{0};    // back to where the walk came from
    float cos_geometric = 0;  // |wo · geometric normal|
    Bsdf bsdf;

    bool is_lamp() const { return at.lamp >= 0; }
    // The vertex's smooth glass, or nullptr. Smooth glass refracts in world coordinates and has no
    // local frame.
    const SmoothGlass* smooth_glass() const { return std::get_if<SmoothGlass>(&bsdf.kind); }
    // The frame around the shading normal, and wo in it. Not for lamps and smooth glass.
    const Frame& frame() const {
        assert(local_);
        return local_->frame;
    }
    const Direction& wo() const {
        assert(local_);
        return local_->wo;
    }

    // Orients the vertex towards the origin of a ray with this direction.
    void face(const Direction& ray_direction) {
        local_.reset();
        wo_world = -ray_direction;
        mesh_shading = at.shading;
        const float side = glm::dot(at.geometric, wo_world);
        shading_faces_away = glm::dot(at.shading, wo_world) * side <= 0.0F;
        if (shading_faces_away) at.shading = at.geometric;
        cos_geometric = std::abs(side);
    }
    void make_local_frame() {
        Local& local = local_.emplace();
        local.frame = Frame(at.shading);
        local.wo = local.frame.to_local(wo_world);
    }

  private:
    struct Local {
        Frame frame;
        Direction wo;
    };
    std::optional<Local> local_;
};

// Makes the vertex where a ray with this direction meets the surface point `at`, in air. False
// where the ray meets the surface edge-on or the surface is black.
bool see_vertex(const Stage& stage,
                const Direction& direction,
                const SurfacePoint& at,
                int hero,
                Vertex& vertex);

// Whether the surface is the boundary of a solid of glass or of a liquid.
inline bool is_boundary(const Stage& stage, MaterialId id) {
    return stage.scene.materials[static_cast<size_t>(id)].kind == MaterialKind::kGlass;
}

// Whether photons are kept and gathered at the vertex: on rough surfaces that are not glass.
inline bool may_merge(const Stage& stage, const Vertex& vertex) {
    return !is_delta(vertex.bsdf) && !is_boundary(stage, vertex.at.material);
}

// The vertex's cell among those with stored vertices; -1 if it cannot be stored.
inline int light_cell_of(const Stage& stage, const Vertex& vertex) {
    if (!stage.connections || !may_merge(stage, vertex)) return -1;
    return stage.connections->light_cell(vertex.at.position, vertex.at.geometric);
}

// The vertex's cell among those that are connected to stored vertices; -1 if it is not connected.
inline int receiver_cell_of(const Stage& stage, const Vertex& vertex) {
    if (!stage.connections || !may_merge(stage, vertex)) return -1;
    return stage.connections->receiver_cell(vertex.at.position, vertex.at.geometric);
}

// Probability with which a walk passes straight through the vertex.
inline float pass_probability(const Vertex& vertex) {
    return vertex.smooth_glass() ? 0.0F : straight_through_probability(vertex.bsdf, vertex.wo());
}

// Whether the geometric and the shading normal put a direction on the same side of the surface.
// `local_z` is the direction's cosine to the shading normal. Light would leak through the surface
// if a vertex were joined where the sides differ.
inline bool sides_agree(const Vertex& vertex, const Direction& direction_world, float local_z) {
    return glm::dot(vertex.at.geometric, direction_world) * local_z > 0.0F;
}

}  // namespace dapple
