// A surface point that a walk has reached, with everything that scattering and joining need there.
#pragma once

#include <cassert>
#include <optional>

#include "materials/bsdf.h"
#include "math/vec.h"
#include "transport/stage.h"

namespace dapple {

struct Vertex {
    SurfacePoint at;
    Normal mesh_shading{0, 0, 1};  // the interpolated normal as the mesh has it
    // It faces away from where the walk came from; at.shading is the geometric normal then.
    bool shading_faces_away = false;
    Direction wo_world{0};    // back to where the walk came from
    float cos_geometric = 0;  // |wo · geometric normal|
    Bsdf bsdf;

    bool is_lamp() const { return at.lamp >= 0; }
    // Smooth glass, which turns light in world coordinates and has no local frame; else nullptr.
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

    // Orients the vertex at `at` towards where a ray of this direction came from.
    void face(const Direction& ray_direction);
    void make_local_frame();

  private:
    struct Local {
        Frame frame;
        Direction wo;
    };
    std::optional<Local> local_;
};

// A surface point as a vertex that a ray of this direction met, in air. False where it was met
// edge-on or is black.
bool see_vertex(const Stage& stage,
                const Direction& direction,
                const SurfacePoint& at,
                int hero,
                Vertex& vertex);

// Whether the surface is the boundary of a solid of glass or of a liquid.
bool is_boundary(const Stage& stage, MaterialId id);

// Whether photons are kept and gathered here: on rough surfaces that are not glass.
bool may_merge(const Stage& stage, const Vertex& vertex);

// Probability with which a walk passes straight through the vertex.
float pass_probability(const Vertex& vertex);

// Whether the vertex can be joined from the side that `direction` is on: the shading and the
// geometric normal must agree on the side, or light would leak through the surface.
bool sides_agree(const Vertex& vertex, const Direction& direction_world, float local_z);

}  // namespace dapple
