#include "transport/photon_differential.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

// η: the index on the side that the light comes from over the index on the other side.
float index_ratio(const SmoothGlass& glass, int j, float wo_z) {
    return 1.0F / eta_from(glass.eta, j, wo_z);
}

// dη/dc, from the shortest and the longest wavelength.
float index_ratio_change(const Stage& stage, const SmoothGlass& glass, float wo_z) {
    const WavelengthCoordinate& c = stage.wavelength_coordinate;
    if (!glass.dispersive || !(c.span > 0)) return 0;
    return (index_ratio(glass, c.shortest, wo_z) - index_ratio(glass, c.longest, wo_z)) / c.span;
}

}  // namespace

void PhotonDifferential::begin(const Direction& direction, float solid_angle) {
    const Frame around(direction);
    const float scale = std::sqrt(solid_angle * kInvPiF);
    direction_ = position_ = {};
    direction_.put(0, scale * around.s);
    direction_.put(1, scale * around.t);
    known_ = true;
}

void PhotonDifferential::arrive(float distance,
                                const Direction& direction,
                                const Normal& geometric) {
    if (!known_) return;
    position_ += distance * direction_;
    const float per_cos = 1.0F / glm::dot(direction, geometric);
    position_ -= (dot(position_, geometric) * per_cos) * direction;
}

void PhotonDifferential::leave(const Stage& stage, const Vertex& vertex, const Walk& walk) {
    if (!known_) return;
    known_ = walk.history.ended_smooth();
    if (!known_) return;
    const Direction in = -vertex.wo_world;
    const Direction& out = walk.ray.direction;
    // The normal on the side that the light comes from.
    const float wo_z = glm::dot(vertex.at.shading, vertex.wo_world);
    const float side = wo_z > 0.0F ? 1.0F : -1.0F;
    const Normal n = side * vertex.at.shading;
    const float cos_in = glm::dot(in, n);  // below 0
    const bool refracted = glm::dot(out, n) < 0.0F;
    const SmoothGlass* const glass = vertex.smooth_glass();
    const float eta = refracted && glass ? index_ratio(*glass, glass->hero, wo_z) : 1.0F;
    const float cos_out = glm::dot(out, n);
    FourVectors dn;
    if (!vertex.shading_faces_away) dn = side * stage.world.normal_changes(vertex.at, position_);
    const Four d_cos = dot(direction_, n) + dot(dn, in);
    if (refracted && glass) {
        const float mu = eta * cos_in - cos_out;
        const float per_cos = eta - eta * eta * cos_in / cos_out;
        direction_ = eta * direction_ - mu * dn - (per_cos * d_cos) * n;
        const float d_mu = cos_in + eta * (1.0F - cos_in * cos_in) / cos_out;
        const Vec3 per_eta = in - d_mu * n;
        direction_.put(2, direction_.at(2) + per_eta * index_ratio_change(stage, *glass, wo_z));
    } else if (!refracted) {
        direction_ -= 2.0F * (cos_in * dn + d_cos * n);
    }
}

float dispersed_m(const Stage& stage, const Walk& walk, const PhotonDifferential& differential) {
    if (!walk.light.monochromatic) return 0;
    if (!differential.is_known()) return kInfinity;
    return stage.wavelength_coordinate.span * glm::length(differential.dispersion());
}

}  // namespace dapple
