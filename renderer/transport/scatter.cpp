#include <algorithm>
#include <cmath>

#include "transport/walk.h"

namespace dapple {

namespace {

// Continues the same edge behind the surface.
ScatterResult pass_straight(Walk& walk, const Vertex& vertex, float probability) {
    walk.light.multiply(straight_through(vertex.bsdf, vertex.wo()) / probability);
    walk.weights = walk.weights_at_edge_start;
    walk.weights.pass_straight(probability);
    walk.ray.origin = offset_origin(vertex.at, walk.ray.direction);
    return ++walk.passed < kMostPassed ? ScatterResult::kPassed : ScatterResult::kEnded;
}

// The event that was sampled at a vertex.
struct Event {
    WorldSample drawn;
    float cos_wi_geometric = 0;  // to the geometric normal
    float cos_wo_geometric = 0;  // to the geometric normal

    const BsdfSample& sample() const { return drawn.local; }
};

// False if no light is scattered, or if a reflected direction points behind the geometric surface
// or a transmitted one in front of it.
bool draw_event(const Vertex& vertex, const Vec3& u, Carrying carrying, Event& event) {
    WorldSample& drawn = event.drawn;
    if (const SmoothGlass* const glass = vertex.smooth_glass()) {
        const Normal& n = vertex.at.shading;
        if (!sample_around(*glass, n, vertex.wo_world, u.z, carrying, drawn)) return false;
    } else {
        if (!sample(vertex.bsdf, vertex.wo(), u, carrying, drawn.local)) return false;
        drawn.wi = vertex.frame().to_world(drawn.local.wi);
    }
    event.cos_wi_geometric = glm::dot(vertex.at.geometric, drawn.wi);
    event.cos_wo_geometric = glm::dot(vertex.at.geometric, vertex.wo_world);
    const bool same_side = event.cos_wi_geometric * event.cos_wo_geometric > 0.0F;
    return event.sample().transmitted != same_side;
}

// Multiplies the walk's light by the event's weight. False if no light remains.
bool weigh_light(const Vertex& vertex, Carrying carrying, const Event& event, Walk& walk) {
    walk.light.multiply(event.sample());
    if (carrying == Carrying::kFlux && vertex.at.shading != vertex.at.geometric) {
        // The adjoint of a BSDF with shading normals (Veach 1997, section 5.3) (E74).
        const float denominator = std::abs(event.cos_wo_geometric * event.sample().wi.z);
        if (denominator <= 0.0F) return false;
        const float cos_wo_shading = glm::dot(vertex.at.shading, vertex.wo_world);
        walk.light.multiply(
            Spectrum(std::abs(cos_wo_shading * event.cos_wi_geometric) / denominator));
    }
    if (!walk.light.throughput.is_finite()) {
        ++walk.nonfinite;
        return false;
    }
    return !walk.light.throughput.is_black();
}

// Records the event in the walk's weights and history.
void record_event(
    const Stage& stage, const Vertex& vertex, Carrying carrying, const Event& event, Walk& walk) {
    const BsdfSample& s = event.sample();
    const float cos_out = std::abs(event.cos_wi_geometric);
    if (s.delta) {
        walk.weights.scatter_smooth(s.pdf, s.pdf_reverse, cos_out);
        walk.history.record_smooth();
    } else {
        const SurfaceKind kind{is_shiny(vertex.bsdf), focuses(vertex.bsdf)};
        const bool merges = stage.merge_area > 0 && merging_may_count(walk.history, carrying) &&
                            may_merge(stage, vertex);
        const float area = merges ? stage.merge_area_at(vertex.at.position) : 0.0F;
        walk.weights.scatter(
            s.pdf, s.pdf_reverse, cos_out, merging_terms(walk.history, carrying, kind, area));
        walk.history.record_rough(kind.is_shiny, kind.focuses);
        walk.light.forget_dropped();
    }
    walk.light.monochromatic = walk.light.monochromatic || s.dispersed;
}

// Starts the walk's next edge in the event's direction.
void begin_edge(const Stage& stage, const Vertex& vertex, const Event& event, Walk& walk) {
    if (event.sample().transmitted && is_boundary(stage, vertex.at.material)) {
        cross_boundary(stage, walk.media, vertex.at.material, event.cos_wi_geometric < 0.0F);
    }
    walk.ray = Ray{offset_origin(vertex.at, event.drawn.wi), event.drawn.wi, 0.0F, kInfinity};
    walk.last_position = vertex.at.position;
    walk.edge_length = 0;
    ++walk.edge;
}

}  // namespace

// A monochromatic walk carries its light in one wavelength of eight. The weights leave roulette
// out, so that they are the same function of the path for every technique.                  (E75)
//
// A sensor walk always survives its first event, and its light is compared with what it has then:
// on a dark floor, the walks that are left would be specks.
bool survives_roulette(Walk& walk, Carrying carrying, RandomStream& random) {
    const float remaining =
        walk.light.throughput.max() * (walk.light.monochromatic ? 1.0F / kSpectrumSize : 1.0F);
    if (carrying == Carrying::kRadiance && walk.edge == 2) {
        walk.full_light = std::min(1.0F, remaining);
        return remaining > 0;
    }
    constexpr float kSurvivalPerLight = 3;  // a walk with a third of its light left always survives
    const float survival = std::min(1.0F, kSurvivalPerLight * remaining / walk.full_light);
    if (survival < 1.0F) {
        if (random.next() >= survival) return false;
        walk.light.multiply(Spectrum(1.0F / survival));
    }
    return true;
}

ScatterResult scatter(const Stage& stage,
                      Walk& walk,
                      const Vertex& vertex,
                      Carrying carrying,
                      const Vec3& u,
                      RandomStream& random) {
    const float q = pass_probability(vertex);
    if (q > 0.0F && random.next() < q) return pass_straight(walk, vertex, q);
    // A camera walk replaces an interpolated normal that faces away from it by the geometric one,
    // so it finds no light that arrives on the wrong side of an interpolated normal. A light walk
    // that arrives there must bring none either, so that both kinds of walk give the same picture.
    if (carrying == Carrying::kFlux && vertex.shading_faces_away && !is_delta(vertex.bsdf)) {
        return ScatterResult::kEnded;
    }
    Event event;
    if (!draw_event(vertex, u, carrying, event)) return ScatterResult::kEnded;
    if (!weigh_light(vertex, carrying, event, walk)) return ScatterResult::kEnded;
    record_event(stage, vertex, carrying, event, walk);
    begin_edge(stage, vertex, event, walk);
    // After its last permitted event a walk still follows one edge, on which it can meet lamps and
    // receptors.
    if (walk.edge > stage.max_bounces + 1) return ScatterResult::kEnded;
    return survives_roulette(walk, carrying, random) ? ScatterResult::kScattered
                                                     : ScatterResult::kEnded;
}

}  // namespace dapple
