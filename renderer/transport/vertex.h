// A surface point that a walk has reached, with the data for scattering and joining there.
#pragma once

#include <cassert>
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
    void face(const Direction& ray_direction);
    void make_local_frame();

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
bool is_boundary(const Stage& stage, MaterialId id);

// Whether photons are kept and gathered at the vertex: on rough surfaces that are not glass.
bool may_merge(const Stage& stage, const Vertex& vertex);

// Probability with which a walk passes straight through the vertex.
float pass_probability(const Vertex& vertex);

// Whether the geometric and the shading normal put a direction on the same side of the surface.
// `local_z` is the direction's cosine to the shading normal. Light would leak through the surface
// if a vertex were joined where the sides differ.
bool sides_agree(const Vertex& vertex, const Direction& direction_world, float local_z);

}  // namespace dapple
