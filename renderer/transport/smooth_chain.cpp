#include "transport/smooth_chain.h"

#include <cmath>

namespace dapple {

namespace {

// The direction's change with the raster position, along the axes of PhotonDifferential::begin().
glm::mat2 axes_per_px(const Lens& lens, const LensStart& start, const Direction& direction) {
    const Frame axes(direction);
    constexpr float kStep = 0.5F;  // px
    glm::mat2 result(0);
    for (int i = 0; i < 2; ++i) {
        Vec2 step(0);
        step[i] = kStep;
        const auto direction_at = [&](const Vec2& raster) {
            return lens.sample_ray(raster, start.aperture.x, start.aperture.y).ray.direction;
        };
        const Vec3 change = direction_at(start.raster + step) - direction_at(start.raster - step);
        result[i] = Vec2(glm::dot(change, axes.s), glm::dot(change, axes.t)) / (2 * kStep);
    }
    return result;
}

}  // namespace

SmoothChain::SmoothChain(const Stage& stage, const LensStart& start) : stage_(stage) {
    walk_.ray = stage.lens.sample_ray(start.raster, start.aperture.x, start.aperture.y).ray;
    walk_.media = stage.start.lens;
    walk_.light.hero = start.hero;
    differential_.begin(walk_.ray.direction, kPiF);
    axes_per_px_ = axes_per_px(stage.lens, start, walk_.ray.direction);
    edge_ = walk_.ray;
}

std::optional<SmoothChain::Crossing> SmoothChain::cross(const Point& centre,
                                                        const Frame& plane) const {
    constexpr float kLeastCos = 0.05F;
    const float cosine = glm::dot(edge_.direction, plane.n);
    if (std::abs(cosine) < kLeastCos || !differential_.is_known()) return std::nullopt;
    const float distance = glm::dot(centre - edge_.origin, plane.n) / cosine;
    if (!(distance > 0)) return std::nullopt;
    PhotonDifferential there = differential_;
    there.arrive(distance, edge_.direction, plane.n);
    const auto on_plane = [&](const Vec3& v) {
        return Vec2(glm::dot(v, plane.s), glm::dot(v, plane.t));
    };
    Crossing crossing;
    crossing.distance = distance;
    crossing.at = on_plane(edge_.origin + distance * edge_.direction - centre);
    crossing.per_px =
        glm::mat2(on_plane(there.half_axis(0)), on_plane(there.half_axis(1))) * axes_per_px_;
    crossing.per_c = on_plane(there.dispersion());
    return crossing;
}

bool SmoothChain::arrive() {
    const bool met = find_next_vertex(stage_, walk_, vertex_);
    length_ = met ? walk_.edge_length - length_before_ : kInfinity;
    if (!met) return false;
    length_before_ = walk_.edge_length;
    differential_.arrive(length_, edge_.direction, vertex_.at.geometric);
    return true;
}

bool SmoothChain::is_gloss() const {
    constexpr float kWidestGloss = 0.06F;  // α
    const float alpha = narrowest_lobe(vertex_.bsdf);
    return alpha > 0.0F && alpha < kWidestGloss && !is_boundary(stage_, vertex_.at.material);
}

float SmoothChain::probability(SmoothChoice choice) const {
    if (gloss_ > 0.0F || vertex_.is_lamp() || pass_probability(vertex_) > 0.0F) return 0;
    const bool reflects = choice == SmoothChoice::kReflect;
    const float gloss = gloss_share(vertex_.bsdf, glm::dot(vertex_.at.shading, vertex_.wo_world));
    if (vertex_.smooth_glass()) return reflects ? gloss : 1.0F - gloss;
    if (!reflects) return 0;
    const bool is_coat = std::holds_alternative<Coated>(vertex_.bsdf.kind);
    if (is_gloss()) return is_coat ? gloss : 1.0F;
    if (is_coat && narrowest_lobe(vertex_.bsdf) == 0.0F) return gloss;
    return is_delta(vertex_.bsdf) ? 1.0F : 0.0F;
}

bool SmoothChain::leave_gloss() {
    gloss_ = 2 * narrowest_lobe(vertex_.bsdf);
    const Normal& n = vertex_.at.shading;
    const Direction out = 2.0F * glm::dot(n, vertex_.wo_world) * n - vertex_.wo_world;
    if (!(glm::dot(out, vertex_.at.geometric) * glm::dot(vertex_.wo_world, vertex_.at.geometric) >
          0.0F)) {
        return false;
    }
    walk_.ray = Ray{offset_origin(vertex_.at, out), out, 0.0F, kInfinity};
    walk_.edge_length = 0;
    walk_.history.record_smooth();
    return true;
}

bool SmoothChain::leave(SmoothChoice choice) {
    const float probability_here = probability(choice);
    share_ *= probability_here;
    if (!is_gloss() && probability_here < 1.0F) {
        if (has_split_) chance_ *= probability_here;
        has_split_ = true;
    }
    const bool reflects = choice == SmoothChoice::kReflect;
    if (is_gloss()) {
        if (!leave_gloss()) return false;
    } else {
        const Vec3 u(0.5F, 0.5F, reflects ? 0.0F : kOneMinusEpsilon);
        RandomStream random(0, 0, 0, Purpose::kPilot);
        const ScatterResult result =
            scatter(stage_, walk_, vertex_, Carrying::kRadiance, u, random);
        if (result != ScatterResult::kScattered) return false;
    }
    differential_.leave(stage_, vertex_, walk_);
    if (!reflects) choices_ |= 1U << static_cast<uint32_t>(events_);
    ++events_;
    edge_ = walk_.ray;
    length_before_ = 0;
    return differential_.is_known();
}

bool SmoothChain::pass() {
    if (vertex_.is_lamp()) return false;
    if (!(pass_probability(vertex_) > 0.0F) || ++walk_.passed >= kMostPassed) return false;
    share_ *= straight_through(vertex_.bsdf, vertex_.wo()).mean();
    walk_.ray.origin = offset_origin(vertex_.at, walk_.ray.direction);
    edge_ = walk_.ray;
    return true;
}

}  // namespace dapple
