#include "transport/vertex.h"

namespace dapple {

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
    make_bsdf(stage.materials, at.material, {at.uv, at.vertex_colour}, {}, hero, vertex.bsdf);
    return true;
}

}  // namespace dapple
