#include "transport/walk.h"

#include <algorithm>
#include <cmath>

#include "materials/glass_catalogue.h"

namespace dapple {

namespace {

constexpr int kMaxStraight = 64;  // surfaces that one edge may pass straight through

// The media on the two sides of a boundary, as priorities leave them.
struct Media {
    MaterialId outside = kNoMaterial;
    MaterialId inside = kNoMaterial;
};

void cross(const Stage& stage, MediumStack& media, MaterialId id, bool entering) {
    media.cross(stage.scene, medium_of(stage.scene, id), entering);
}

Media media_at(const Stage& stage, const MediumStack& media, MaterialId id, bool entering) {
    const MaterialId here = media.current();
    const MaterialId there = media.current_after(stage.scene, medium_of(stage.scene, id), entering);
    return entering ? Media{here, there} : Media{there, here};
}

bool is_boundary(const Stage& stage, MaterialId id) {
    return stage.scene.materials[static_cast<size_t>(id)].kind == MaterialKind::kGlass;
}

// What a medium lets pass over a distance.
Spectrum passed_by(const Stage& stage, const MediumStack& media, float distance) {
    const MaterialId medium = media.current();
    if (medium == kNoMaterial) return Spectrum(1.0F);
    return transmittance(stage.materials.absorption(medium), distance);
}

void multiply(Walk& walk, const Spectrum& weight) {
    walk.throughput *= weight;
    walk.undispersed *= weight;
}

// Where the vertex at its surface point faces.
void turn_vertex(const Ray& ray, Vertex& vertex) {
    const SurfacePoint& at = vertex.at;
    vertex.wo_world = -ray.direction;
    // Where the interpolated normal looks away from the ray it cannot be used.
    const float side = glm::dot(at.geometric, vertex.wo_world);
    vertex.shading_faces_away = glm::dot(at.shading, vertex.wo_world) * side <= 0.0F;
    if (vertex.shading_faces_away) {
        vertex.facing_away = at.shading;
        vertex.at.shading = at.geometric;
    }
    vertex.cos_geometric = std::abs(side);
}

const SmoothGlass* smooth_glass(const Vertex& vertex) {
    return std::get_if<SmoothGlass>(&vertex.bsdf.kind);
}

}  // namespace

void make_frame(Vertex& vertex) {
    vertex.frame = Frame(vertex.at.shading);
    vertex.wo = vertex.frame.to_local(vertex.wo_world);
}

bool find_next_vertex(const Stage& stage, Walk& walk, Vertex& vertex) {
    for (int boundary = 0; boundary < kMaxStraight; ++boundary) {
        Hit hit;
        ++walk.rays;
        if (!stage.world.closest(walk.ray, hit)) {
            walk.edge_length = kInfinity;
            return false;
        }
        walk.edge_length += hit.t;
        if (!walk.media.empty()) multiply(walk, passed_by(stage, walk.media, hit.t));
        MediumSides sides;
        const MaterialId material = stage.world.material_at(hit);
        if (material != kNoMaterial && is_boundary(stage, material)) {
            const bool entering = glm::dot(hit.normal, walk.ray.direction) < 0.0F;
            const Media media = media_at(stage, walk.media, material, entering);
            if (media.outside == media.inside) {
                cross(stage, walk.media, material, entering);
                walk.ray.origin = stage.world.origin_behind(walk.ray, hit);
                continue;
            }
            sides = {&stage.materials.boundary(media.outside, media.inside), walk.monochromatic};
        }
        const SurfacePoint& at = vertex.at;
        stage.world.surface_at(walk.ray, hit, vertex.at);
        if (at.lamp < 0 && at.material == kNoMaterial) return false;
        turn_vertex(walk.ray, vertex);
        if (vertex.cos_geometric <= 0.0F) return false;
        if (at.lamp < 0) {
            make_bsdf(stage.materials, at.material, at.uv, sides, walk.hero, vertex.bsdf);
            if (!smooth_glass(vertex)) make_frame(vertex);
        }
        walk.departed = walk.weights;
        walk.weights.arrive(square(walk.edge_length), vertex.cos_geometric);
        return true;
    }
    return false;
}

bool see_vertex(const Stage& stage,
                const Direction& direction,
                const SurfacePoint& at,
                int hero,
                Vertex& vertex) {
    if (at.material == kNoMaterial) return false;
    vertex.at = at;
    turn_vertex(Ray{at.position, direction, 0.0F, kInfinity}, vertex);
    make_frame(vertex);
    if (vertex.cos_geometric <= 0.0F) return false;
    make_bsdf(stage.materials, at.material, at.uv, {}, hero, vertex.bsdf);
    return true;
}

namespace {

// Goes on behind the surface on the same edge.
bool pass_straight(Walk& walk, const Vertex& vertex, float probability) {
    multiply(walk, straight_through(vertex.bsdf, vertex.wo) / probability);
    walk.weights = walk.departed;
    walk.weights.pass_straight(probability);
    walk.ray.origin = offset_origin(vertex.at, walk.ray.direction);
    return ++walk.passed < kMaxStraight;
}

// Merging at the vertex that the walk leaves, not by a smooth event, as its weights count it.
PartialWeights::Merging merging_at(const Stage& stage,
                                   const Walk& walk,
                                   const Vertex& vertex,
                                   Carrying carrying) {
    PartialWeights::Merging merging;
    if (stage.merge_area <= 0) return merging;
    merging.is_shiny = is_shiny(vertex.bsdf);
    if (!may_merge(stage, vertex)) return merging;
    const auto area = [&] { return stage.merge_area_at(vertex.at.position); };
    if (carrying == Carrying::kFlux) {
        // It goes on from here to some vertex that is joined to the lens, so the lens does not see
        // this one first, nor are all events on the way to it smooth.
        if (walk.had_smooth) merging.shiny = area();
    } else if (walk.edge > 1 && walk.only_shiny) {
        merging.waiting = area();
    }
    return merging;
}

void update_weights(const Stage& stage,
                    Walk& walk,
                    const Vertex& vertex,
                    Carrying carrying,
                    const BsdfSample& s,
                    float cos_out) {
    if (s.delta) {
        walk.after_delta = walk.had_smooth = true;
        walk.began_smooth = walk.began_smooth || walk.edge == 1;
        walk.weights.scatter_delta(s.pdf, s.pdf_reverse, cos_out);
        return;
    }
    const PartialWeights::Merging merging = merging_at(stage, walk, vertex, carrying);
    walk.weights.scatter(s.pdf, s.pdf_reverse, cos_out, walk.per_join, merging);
    walk.only_shiny = walk.only_shiny && merging.is_shiny;
    walk.rough_after_first = walk.rough_after_first || walk.edge > 1;
    walk.only_smooth = false;
    walk.after_delta = false;
    walk.undispersed = walk.throughput;
}

}  // namespace

bool may_merge(const Stage& stage, const Vertex& vertex) {
    return !is_delta(vertex.bsdf) && !is_boundary(stage, vertex.at.material);
}

namespace {

float pass_probability(const Vertex& vertex) {
    return smooth_glass(vertex) ? 0.0F : straight_through_probability(vertex.bsdf, vertex.wo);
}

bool draw_direction(const Vertex& vertex, const Vec3& u, Carrying carrying, WorldSample& out) {
    if (const SmoothGlass* const glass = smooth_glass(vertex)) {
        return sample_around(*glass, vertex.at.shading, vertex.wo_world, u.z, carrying, out);
    }
    if (!sample(vertex.bsdf, vertex.wo, u, carrying, out.local)) return false;
    out.wi = vertex.frame.to_world(out.local.wi);
    return true;
}

}  // namespace

bool scatter(const Stage& stage,
             Walk& walk,
             const Vertex& vertex,
             Carrying carrying,
             const Vec3& u,
             RandomStream& random) {
    const float q = pass_probability(vertex);
    if (q > 0.0F && random.next() < q) return pass_straight(walk, vertex, q);
    // The direction on the camera's side decides which normal counts; a light walk that came in on
    // the wrong side of the interpolated one brings nothing there.
    if (carrying == Carrying::kFlux && vertex.shading_faces_away && !is_delta(vertex.bsdf)) {
        return false;
    }
    WorldSample drawn;
    if (!draw_direction(vertex, u, carrying, drawn)) return false;
    const BsdfSample& s = drawn.local;
    const Direction& wi = drawn.wi;
    const float wi_geometric = glm::dot(vertex.at.geometric, wi);
    const float wo_geometric = glm::dot(vertex.at.geometric, vertex.wo_world);
    if (s.transmitted == (wi_geometric * wo_geometric > 0.0F)) return false;

    walk.throughput *= s.weight;
    // All wavelengths take the hero's weight on refraction; its factor 8 stands for the others.
    const float dropped = walk.monochromatic ? 1.0F : 1.0F / kSpectrumSize;
    walk.undispersed *= s.dispersed ? Spectrum(s.weight[walk.hero] * dropped) : s.weight;
    if (carrying == Carrying::kFlux && vertex.at.shading != vertex.at.geometric) {
        // The adjoint of a BSDF with shading normals (Veach 1997, section 5.3) (E50).
        const float below = std::abs(wo_geometric * s.wi.z);
        if (below <= 0.0F) return false;
        const float wo_shading = glm::dot(vertex.at.shading, vertex.wo_world);
        multiply(walk, Spectrum(std::abs(wo_shading * wi_geometric) / below));
    }
    if (!walk.throughput.is_finite()) {
        ++walk.nonfinite;
        return false;
    }
    if (walk.throughput.is_black()) return false;
    update_weights(stage, walk, vertex, carrying, s, std::abs(wi_geometric));
    walk.monochromatic = walk.monochromatic || s.dispersed;
    if (s.transmitted && is_boundary(stage, vertex.at.material)) {
        cross(stage, walk.media, vertex.at.material, wi_geometric < 0.0F);
    }
    walk.ray = Ray{offset_origin(vertex.at, wi), wi, 0.0F, kInfinity};
    walk.last_position = vertex.at.position;
    walk.edge_length = 0;
    walk.per_join = 0;
    // On a last edge beyond the limit walks meet lamps and receptors, and scatter no more.
    if (++walk.edge > stage.max_bounces + 1) return false;

    // Roulette on what is left of the walk's light (E51). A monochromatic walk carries its light in
    // one wavelength of eight. The weights leave it out: they stay the same function of the path
    // for every technique.
    const float left = walk.throughput.max() * (walk.monochromatic ? 1.0F / kSpectrumSize : 1.0F);
    const float survival = std::min(1.0F, 3.0F * left);
    if (survival < 1.0F) {
        if (random.next() >= survival) return false;
        multiply(walk, Spectrum(1.0F / survival));
    }
    return true;
}

bool sides_agree(const Vertex& vertex, const Direction& direction_world, float local_z) {
    return glm::dot(vertex.at.geometric, direction_world) * local_z > 0.0F;
}

bool connect(const Stage& stage,
             Walk& walk,
             const Vertex& vertex,
             const Point& target,
             const Direction& direction,
             float distance,
             Connection& connection) {
    Ray ray;
    ray.origin = offset_origin(vertex.at, direction);
    ray.direction = direction;
    // Ends before its target by as much as the coordinates' rounding, so as not to meet it.
    const float shorter = std::max(1e-4F * distance, 0x1p-18F * glm::length(target));
    ray.t_max = distance - shorter;
    ++walk.rays;
    if (stage.world.blocked(ray)) return false;

    connection.transmittance = Spectrum(1.0F);
    connection.probability = 1;
    if (!walk.media.empty()) {
        MediumStack media = walk.media;
        const float side = glm::dot(vertex.at.geometric, direction);
        const bool transmitted = side * glm::dot(vertex.at.geometric, vertex.wo_world) < 0.0F;
        if (transmitted && is_boundary(stage, vertex.at.material)) {
            cross(stage, media, vertex.at.material, side < 0.0F);
        }
        connection.transmittance = passed_by(stage, media, distance);
    }
    for (int straight = 0; straight < kMaxStraight; ++straight) {
        Hit hit;
        ray.t_max = glm::dot(target - ray.origin, direction) - shorter;
        if (ray.t_max <= 0.0F || !stage.world.closest_see_through(ray, hit)) return true;
        const SurfacePoint at = stage.world.surface_at(ray, hit);
        Vertex through;
        if (!see_vertex(stage, direction, at, walk.hero, through)) return false;
        const float q = straight_through_probability(through.bsdf, through.wo);
        if (q <= 0.0F) return false;
        connection.transmittance *= straight_through(through.bsdf, through.wo);
        connection.probability *= q;
        ray.origin = offset_origin(at, direction);
    }
    return false;
}

}  // namespace dapple
