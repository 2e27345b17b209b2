#include "transport/walk.h"

namespace dapple {

namespace {

// The media on the two sides of a boundary, chosen by their priorities.
struct Media {
    MaterialId outside = kNoMaterial;
    MaterialId inside = kNoMaterial;
};

Media media_at(const Stage& stage, const MediumStack& media, MaterialId id, bool entering) {
    const MaterialId here = media.current();
    const MaterialId there = media.current_after(stage.scene, medium_of(stage.scene, id), entering);
    return entering ? Media{here, there} : Media{there, here};
}

// Makes the vertex where the walk's ray met a surface. False if the surface is black or was met
// edge-on.
bool make_vertex(const Stage& stage, const Walk& walk, const MediumSides& sides, Vertex& vertex) {
    const SurfacePoint& at = vertex.at;
    if (at.lamp < 0 && at.material == kNoMaterial) return false;
    vertex.face(walk.ray.direction);
    if (vertex.cos_geometric <= 0.0F) return false;
    if (at.lamp < 0) {
        make_bsdf(stage.materials,
                  at.material,
                  {at.uv, at.vertex_colour},
                  sides,
                  walk.light.hero,
                  vertex.bsdf);
        if (!vertex.smooth_glass()) vertex.make_local_frame();
    }
    return true;
}

}  // namespace

bool find_next_vertex(const Stage& stage, Walk& walk, Vertex& vertex) {
    for (int boundary = 0; boundary < kMostPassed; ++boundary) {
        Hit hit;
        ++walk.rays;
        if (!stage.world.closest(walk.ray, hit)) {
            walk.edge_length = kInfinity;
            return false;
        }
        walk.edge_length += hit.t;
        if (!walk.media.empty() || stage.haze) {
            walk.light.multiply(
                passed_by_space(stage, walk.media, walk.ray.origin, walk.ray.direction, hit.t));
        }
        MediumSides sides;
        const MaterialId material = stage.world.material_at(hit);
        if (material != kNoMaterial && is_boundary(stage, material)) {
            const bool entering = glm::dot(hit.normal, walk.ray.direction) < 0.0F;
            const Media media = media_at(stage, walk.media, material, entering);
            if (media.outside == media.inside) {
                cross_boundary(stage, walk.media, material, entering);
                walk.ray.origin = stage.world.origin_behind(walk.ray, hit);
                continue;
            }
            sides = {&stage.materials.boundary(media.outside, media.inside),
                     walk.light.monochromatic};
        }
        stage.world.surface_at(walk.ray, hit, vertex.at);
        if (!make_vertex(stage, walk, sides, vertex)) return false;
        walk.weights_at_edge_start = walk.weights;
        walk.weights.arrive(square(walk.edge_length), vertex.cos_geometric);
        return true;
    }
    return false;
}

}  // namespace dapple
