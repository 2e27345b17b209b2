#include "transport/photon_differential.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

// Index on the side that the light comes from over the index beyond: η.
float index_ratio(const SmoothGlass& glass, int j, const Direction& wo) {
    return 1.0F / eta_from(glass.eta, j, wo);
}

// dη/dc, from the two wavelengths that are farthest apart.
float index_ratio_change(const Stage& stage, const SmoothGlass& glass, const Direction& wo) {
    const Spectrum& c = stage.wavelength_coordinate;
    int low = 0;
    int high = 0;
    for (int j = 1; j < kSpectrumSize; ++j) {
        if (c[j] < c[low]) low = j;
        if (c[j] > c[high]) high = j;
    }
    if (!glass.dispersive || !(c[high] > c[low])) return 0;
    return (index_ratio(glass, high, wo) - index_ratio(glass, low, wo)) / (c[high] - c[low]);
}

}  // namespace

void PhotonDifferential::begin(const Direction& direction, float solid_angle) {
    const Frame around(direction);
    const float scale = std::sqrt(solid_angle * kInvPiF);
    direction_ = {scale * around.s, scale * around.t, Vec3(0)};
    position_ = {Vec3(0), Vec3(0), Vec3(0)};
    known_ = true;
}

void PhotonDifferential::arrive(float distance,
                                const Direction& direction,
                                const Normal& geometric) {
    if (!known_) return;
    const float cos_hit = glm::dot(direction, geometric);
    for (size_t i = 0; i < 3; ++i) {
        Vec3& p = position_[i];
        p += distance * direction_[i];
        p -= (glm::dot(p, geometric) / cos_hit) * direction;
    }
}

void PhotonDifferential::leave(const Stage& stage, const Vertex& vertex, const Walk& walk) {
    if (!known_) return;
    known_ = walk.after_delta;
    if (!known_) return;
    const Direction in = -vertex.wo_world;
    const Direction& out = walk.ray.direction;
    // The normal on the side that the light comes from.
    const float side = glm::dot(vertex.frame.n, in) < 0.0F ? 1.0F : -1.0F;
    const Normal n = side * vertex.frame.n;
    const float cos_in = glm::dot(in, n);  // below 0
    const bool refracted = glm::dot(out, n) < 0.0F;
    const auto* glass = std::get_if<SmoothGlass>(&vertex.bsdf.kind);
    const float eta = refracted && glass ? index_ratio(*glass, glass->hero, vertex.wo) : 1.0F;
    const float cos_out = glm::dot(out, n);
    std::array<Vec3, 3> turns{Vec3(0), Vec3(0), Vec3(0)};
    if (!vertex.shading_faces_away) turns = stage.world.normal_changes(vertex.at, position_);
    for (size_t i = 0; i < 3; ++i) {
        const Vec3 dn = side * turns[i];
        const Vec3 d = direction_[i];
        const float d_cos = glm::dot(d, n) + glm::dot(in, dn);
        if (refracted && glass) {
            const float mu = eta * cos_in - cos_out;
            const float d_mu = (eta - eta * eta * cos_in / cos_out) * d_cos;
            direction_[i] = eta * d - mu * dn - d_mu * n;
        } else if (!refracted) {
            direction_[i] = d - 2.0F * (cos_in * dn + d_cos * n);
        }
    }
    if (refracted && glass) {
        const float d_mu = cos_in + eta * (1.0F - cos_in * cos_in) / cos_out;
        direction_[2] += (in - d_mu * n) * index_ratio_change(stage, *glass, vertex.wo);
    }
}

float parted_m(const Stage& stage, const Walk& walk, const PhotonDifferential& differential) {
    if (!walk.monochromatic) return 0;
    if (!differential.is_known()) return kInfinity;
    const float* const c = stage.wavelength_coordinate.v;
    const auto [low, high] = std::minmax_element(c, c + kSpectrumSize);
    return (*high - *low) * glm::length(differential.dispersion());
}

void stand_for_all_wavelengths(Walk& walk) {
    if (!walk.monochromatic) return;
    walk.throughput = walk.undispersed;
    walk.monochromatic = false;
}

}  // namespace dapple
