// Diffuse reflection, the same on both sides.   f = ρ/π on the side of wo (Lambert)   (E39)
#pragma once

#include "materials/scatter.h"
#include "math/warps.h"

namespace dapple {

struct Lambertian {
    Spectrum reflectance;
};

inline Spectrum eval(const Lambertian& m, const Direction& wo, const Direction& wi, Carrying) {
    return same_side(wo, wi) ? m.reflectance * kInvPiF : Spectrum(0.0F);
}

inline float pdf(const Lambertian&, const Direction& wo, const Direction& wi) {
    return same_side(wo, wi) ? std::abs(wi.z) * kInvPiF : 0.0F;
}

inline bool sample(
    const Lambertian& m, const Direction& wo, const Vec3& u, Carrying, BsdfSample& out) {
    out.clear_kind();
    out.wi = on_side_of(sample_cosine_hemisphere(u.x, u.y), wo);
    out.weight = m.reflectance;
    out.pdf = pdf(m, wo, out.wi);
    out.pdf_reverse = pdf(m, out.wi, wo);
    return out.pdf > 0.0F;
}

}  // namespace dapple
