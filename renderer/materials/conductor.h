// Brushed or sand-blasted metal, the same on both sides.
//
//   f = F(wo·h) D G2 / (4 cosθo cosθi)  +  f_ms(wo, wi)                     GGX, microfacet.h
//   f_ms = C (1 - A(θo)) (1 - A(θi)) / (π (1 - Ā)),  C = F̄² Ā / (1 - F̄ (1 - Ā))             (E40)
// f_ms restores what a single bounce loses (Kulla and Conty 2017, Revisiting physically based
// shading). A is the white lobe's albedo, and F̄ = (1 + 20 F0) / 21 is Schlick's average. The model
// is reciprocal, and a white metal returns all light.
#pragma once

#include "materials/fresnel.h"
#include "materials/lobe_albedo.h"
#include "materials/microfacet.h"
#include "materials/scatter.h"
#include "math/warps.h"

namespace dapple {

struct Conductor {
    Spectrum reflectance;  // at normal incidence
    Spectrum multiple;     // C / (π (1 - Ā))
    const LobeAlbedo* lobe = nullptr;
    float alpha = 0.1F;
};

inline Conductor make_conductor(const Spectrum& reflectance, const LobeAlbedo& lobe, float alpha) {
    Conductor m{reflectance, Spectrum(0.0F), &lobe, alpha};
    const float lost = 1.0F - lobe.average;
    if (lost < 1e-5F) return m;  // nearly polished: nothing to restore
    for (int j = 0; j < kSpectrumSize; ++j) {
        const float f = (1.0F + 20.0F * reflectance[j]) / 21.0F;
        m.multiple[j] = f * f * lobe.average / (1.0F - f * lost) / (kPiF * lost);
    }
    return m;
}

// Probability of drawing from the second term: the share that the first term loses.
inline float multiple_share(const Conductor& m, float cos_o) {
    return 1.0F - m.lobe->at(cos_o);
}

inline Spectrum eval(const Conductor& m, const Direction& wo, const Direction& wi, Carrying) {
    if (!same_side(wo, wi)) return Spectrum(0.0F);
    const Direction o = on_side_of(wo, wo);
    const Direction i = on_side_of(wi, wi);
    const Direction h = glm::normalize(o + i);
    const float single =
        ggx_density(h, m.alpha) * smith_g2_reflection(o, i, m.alpha) / (4.0F * o.z * i.z);
    const float lost = multiple_share(m, o.z) * multiple_share(m, i.z);
    return fresnel_conductor(glm::dot(o, h), m.reflectance) * single + m.multiple * lost;
}

inline float pdf(const Conductor& m, const Direction& wo, const Direction& wi) {
    if (!same_side(wo, wi)) return 0.0F;
    const Direction o = on_side_of(wo, wo);
    const Direction i = on_side_of(wi, wi);
    const Direction h = glm::normalize(o + i);
    const float multiple = multiple_share(m, o.z);
    const float single = smith_g1(o, m.alpha) * ggx_density(h, m.alpha) / (4.0F * o.z);
    return (1.0F - multiple) * single + multiple * pdf_cosine_hemisphere(i.z);
}

inline bool sample(
    const Conductor& m, const Direction& wo, const Vec3& u, Carrying carrying, BsdfSample& out) {
    out.clear_kind();
    const Direction o = on_side_of(wo, wo);
    const Direction i = u.z < multiple_share(m, o.z)
                            ? sample_cosine_hemisphere(u.x, u.y)
                            : reflect(o, sample_visible_normal(o, m.alpha, u.x, u.y));
    if (i.z <= 0.0F) return false;
    out.wi = on_side_of(i, wo);
    out.pdf = pdf(m, wo, out.wi);
    if (!(out.pdf > 0.0F)) return false;
    out.pdf_reverse = pdf(m, out.wi, wo);
    out.weight = eval(m, wo, out.wi, carrying) * (i.z / out.pdf);
    return true;
}

}  // namespace dapple
