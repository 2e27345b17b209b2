// Microfacet statistics of ground and brushed surfaces, isotropic.
//
//   D(h)   = 1 / (π α² ((hx² + hy²)/α² + hz²)²)            GGX, Walter et al. 2007            (E35)
//   Λ(w)   = (√(1 + α² tan²θ) - 1) / 2,   G1 = 1 / (1 + Λ)          Smith
//   G2     = 1 / (1 + Λo + Λi)    reflection, heights correlated (Heitz 2014)
//   G2     = G1(wo) G1(wi)        transmission (Walter et al. 2007)                           (E36)
//   Dv(h)  = G1(wo) D(h) (wo·h) / cosθo     normals visible from wo (Heitz 2018)              (E37)
// Local frame, h.z > 0, wo.z > 0 unless said otherwise. α = roughness².
#pragma once

#include <algorithm>
#include <cmath>

#include "math/vec.h"

namespace dapple {

inline float ggx_density(const Direction& h, float alpha) {
    const float a2 = alpha * alpha;
    const float k = (h.x * h.x + h.y * h.y) / a2 + h.z * h.z;
    return 1.0F / (kPiF * a2 * k * k);
}

inline float ggx_lambda(const Direction& w, float alpha) {
    const float tan2 = (w.x * w.x + w.y * w.y) / std::max(w.z * w.z, 1e-20F);
    return 0.5F * (std::sqrt(1.0F + alpha * alpha * tan2) - 1.0F);
}

inline float smith_g1(const Direction& w, float alpha) {
    return 1.0F / (1.0F + ggx_lambda(w, alpha));
}

inline float smith_g2_reflection(const Direction& wo, const Direction& wi, float alpha) {
    return 1.0F / (1.0F + ggx_lambda(wo, alpha) + ggx_lambda(wi, alpha));
}

inline float smith_g2_transmission(const Direction& wo, const Direction& wi, float alpha) {
    return smith_g1(wo, alpha) * smith_g1(wi, alpha);
}

// Density of h among the normals visible from wo, per steradian of h.
inline float pdf_visible_normal(const Direction& wo, const Direction& h, float alpha) {
    return smith_g1(wo, alpha) * ggx_density(h, alpha) * std::max(0.0F, glm::dot(wo, h)) / wo.z;
}

inline Direction sample_visible_normal(const Direction& wo, float alpha, float u, float v) {
    // Stretching makes the surface a hemisphere of radius 1. Its visible normals are the points of
    // its projection along the view: half a disk and half an ellipse.
    const Direction view = glm::normalize(Vec3(alpha * wo.x, alpha * wo.y, wo.z));
    const float length2 = view.x * view.x + view.y * view.y;
    const Direction across =
        length2 > 1e-14F ? Vec3(-view.y, view.x, 0) / std::sqrt(length2) : Vec3(1, 0, 0);
    const Direction up = glm::cross(view, across);
    const float r = std::sqrt(u);
    const float phi = 2.0F * kPiF * v;
    const float x = r * std::cos(phi);
    const float s = 0.5F * (1.0F + view.z);
    const float y = (1.0F - s) * std::sqrt(std::max(0.0F, 1.0F - x * x)) + s * r * std::sin(phi);
    const Vec3 n = x * across + y * up + std::sqrt(std::max(0.0F, 1.0F - x * x - y * y)) * view;
    return glm::normalize(Vec3(alpha * n.x, alpha * n.y, std::max(1e-7F, n.z)));
}

inline Direction reflect(const Direction& wo, const Direction& h) {
    return 2.0F * glm::dot(wo, h) * h - wo;
}

}  // namespace dapple
