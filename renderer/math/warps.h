// Warps from the unit square to disks, hemispheres, cones and spheres, each with its density.
// Input (u, v) in [0, 1)²; directions are in a local frame with z as the axis; densities per
// steradian for directions, per unit area for points.
#pragma once

#include <algorithm>
#include <cmath>

#include "math/vec.h"

namespace dapple {

struct OnDisk {
    Vec2 at{0};
    float radius = 0;  // distance from the centre, with either sign
};

// Uniform on the unit disk by the concentric map (Shirley, Chiu 1997); density 1/π. Angles are
// within π/4 of an axis, where the first terms of the series of sine and cosine are exact to 3e-8.
// This avoids branches that a processor cannot predict.
inline OnDisk sample_disk_and_radius(float u, float v) {
    const float a = 2.0F * u - 1.0F;
    const float b = 2.0F * v - 1.0F;
    if (a == 0.0F && b == 0.0F) return {};
    const bool along_x = a * a > b * b;
    const float r = along_x ? a : b;
    const float phi = 0.25F * kPiF * ((along_x ? b : a) / r);  // from that axis
    const float p2 = phi * phi;
    const float p4 = p2 * p2;
    // The terms are added in pairs that can be computed independently.
    const float sin_phi =
        phi * ((1.0F + p2 * (-1.0F / 6)) + p4 * (1.0F / 120 + p2 * (-1.0F / 5040)) +
               p4 * p4 * (1.0F / 362880));
    const float cos_phi =
        (1.0F + p2 * -0.5F) + p4 * (1.0F / 24 + p2 * (-1.0F / 720)) + p4 * p4 * (1.0F / 40320);
    return {r * (along_x ? Vec2(cos_phi, sin_phi) : Vec2(sin_phi, cos_phi)), r};
}
inline Vec2 sample_disk(float u, float v) {
    return sample_disk_and_radius(u, v).at;
}

// Cosine-weighted hemisphere around +z (Malley's method); density cosθ/π.
inline Direction sample_cosine_hemisphere(float u, float v) {
    const OnDisk d = sample_disk_and_radius(u, v);
    return Direction(d.at.x, d.at.y, std::sqrt(1.0F - d.radius * d.radius));
}
inline float pdf_cosine_hemisphere(float cos_theta) {
    return std::max(0.0F, cos_theta) * kInvPiF;
}

inline Direction direction_from_angles(float cos_theta, float sin_theta, float phi) {
    return Direction(sin_theta * std::cos(phi), sin_theta * std::sin(phi), cos_theta);
}

// Uniform sphere; density 1/(4π).
inline Direction sample_sphere(float u, float v) {
    const float cos_theta = 1.0F - 2.0F * u;
    const float sin_theta = std::sqrt(std::max(0.0F, 1.0F - cos_theta * cos_theta));
    return direction_from_angles(cos_theta, sin_theta, 2.0F * kPiF * v);
}
inline constexpr float kPdfSphere = 0.25F * kInvPiF;

// Uniform cone around +z. `one_minus_cos` is 1 - cos of the half-angle, precise for narrow cones.
inline Direction sample_cone(float one_minus_cos, float u, float v) {
    const float x = u * one_minus_cos;  // 1 - cosθ
    const float sin_theta = std::sqrt(std::max(0.0F, x * (2.0F - x)));
    return direction_from_angles(1.0F - x, sin_theta, 2.0F * kPiF * v);
}
inline float pdf_cone(float one_minus_cos) {
    return 1.0F / (2.0F * kPiF * one_minus_cos);
}

}  // namespace dapple
