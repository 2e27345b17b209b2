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

float SmoothChain::probability(SmoothChoice choice) const {
    if (vertex_.is_lamp() || pass_probability(vertex_) > 0.0F) return 0;
    const bool reflects = choice == SmoothChoice::kReflect;
    const bool is_coat =
        std::holds_alternative<Coated>(vertex_.bsdf.kind) && narrowest_lobe(vertex_.bsdf) == 0.0F;
    if (!is_delta(vertex_.bsdf) && !is_coat) return 0;
    if (!is_coat && !vertex_.smooth_glass()) return reflects ? 1.0F : 0.0F;
    const float gloss =
        gloss_share(vertex_.bsdf, glm::dot(vertex_.at.shading, vertex_.wo_world));
    if (reflects) return gloss;
    return is_coat ? 0.0F : 1.0F - gloss;
}

bool SmoothChain::leave(SmoothChoice choice) {
    share_ *= probability(choice);
    const bool reflects = choice == SmoothChoice::kReflect;
    const Vec3 u(0.5F, 0.5F, reflects ? 0.0F : kOneMinusEpsilon);
    RandomStream random(0, 0, 0, Purpose::kPilot);
    if (scatter(stage_, walk_, vertex_, Carrying::kRadiance, u, random) !=
        ScatterResult::kScattered) {
        return false;
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
