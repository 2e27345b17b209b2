// A clear coat (varnish, water film) over a diffuse base, the same on both sides.
//
//   f = c (f_coat + f_base) + (1 - c) ρ/π,        c = share of the surface that the coat covers
//   f_base = (1 - A(θo)) (1 - A(θi)) ρ / (π n² (1 - ρ Ain)),   1 - Ain = (1 - Ā) / n²         (E41)
// f_coat: mirror direction with Fresnel F, or a GGX lobe (microfacet.h). A is the coat's albedo
// (F itself when smooth), and Ain is the share that the coat reflects back to the base from inside.
// Light passes the coat, bounces between base and coat any number of times, and leaves. The model
// is reciprocal, and a white base returns all light. n = 1.5, about that of varnish; a water film
// (1.33) reflects half as much at normal incidence.
#pragma once

#include "materials/fresnel.h"
#include "materials/lobe_albedo.h"
#include "materials/microfacet.h"
#include "materials/scatter.h"
#include "math/warps.h"

namespace dapple {

inline constexpr float kCoatIndex = 1.5F;

struct Coated {
    Spectrum colour;   // ρ
    Spectrum bare;     // (1 - c) ρ/π
    Spectrum covered;  // c ρ / (π n² (1 - ρ Ain))
    const LobeAlbedo* lobe = nullptr;
    float alpha = 0;    // 0: smooth
    float coat = 1;     // c
    float diffuse = 0;  // mean albedo of the base; used only to choose the lobe
};

inline Coated make_coated(const Spectrum& base, const LobeAlbedo& lobe, float alpha, float coat) {
    Coated m{base, base * ((1.0F - coat) * kInvPiF), {}, &lobe, alpha, coat, base.mean()};
    const float n2 = kCoatIndex * kCoatIndex;
    const float inside = 1.0F - (1.0F - lobe.average) / n2;
    for (int j = 0; j < kSpectrumSize; ++j) {
        m.covered[j] = coat * base[j] / (kPiF * n2 * (1.0F - base[j] * inside));
    }
    return m;
}

inline float coat_albedo(const Coated& m, float cos_o) {
    return m.alpha > 0.0F ? m.lobe->at(cos_o) : fresnel_dielectric(cos_o, kCoatIndex);
}

// Probability of drawing from the coat's lobe.
inline float coat_share(const Coated& m, float albedo) {
    const float coat = m.coat * albedo;
    const float base = (1.0F - coat) * m.diffuse;
    return coat + base > 0.0F ? coat / (coat + base) : 0.0F;
}

inline Spectrum eval(const Coated& m, const Direction& wo, const Direction& wi, Carrying) {
    if (!same_side(wo, wi)) return Spectrum(0.0F);
    const Direction o = on_side_of(wo, wo);
    const Direction i = on_side_of(wi, wi);
    Spectrum f = m.bare + m.covered * ((1.0F - coat_albedo(m, o.z)) * (1.0F - coat_albedo(m, i.z)));
    if (m.alpha > 0.0F) {
        const Direction h = glm::normalize(o + i);
        f += Spectrum(m.coat * fresnel_dielectric(glm::dot(o, h), kCoatIndex) *
                      ggx_density(h, m.alpha) * smith_g2_reflection(o, i, m.alpha) /
                      (4.0F * o.z * i.z));
    }
    return f;
}

inline float pdf(const Coated& m, const Direction& wo, const Direction& wi) {
    if (!same_side(wo, wi)) return 0.0F;
    const Direction o = on_side_of(wo, wo);
    const Direction i = on_side_of(wi, wi);
    const float share = coat_share(m, coat_albedo(m, o.z));
    float density = (1.0F - share) * pdf_cosine_hemisphere(i.z);
    if (m.alpha > 0.0F) {
        const Direction h = glm::normalize(o + i);
        density += share * smith_g1(o, m.alpha) * ggx_density(h, m.alpha) / (4.0F * o.z);
    }
    return density;
}

inline bool sample(
    const Coated& m, const Direction& wo, const Vec3& u, Carrying carrying, BsdfSample& out) {
    out.clear_kind();
    const Direction o = on_side_of(wo, wo);
    const float albedo = coat_albedo(m, o.z);
    const float share = coat_share(m, albedo);
    const bool coat = u.z < share;
    if (coat && m.alpha == 0.0F) {
        out.delta = true;
        out.wi = mirrored(wo);
        out.weight = Spectrum(m.coat * albedo / share);
        out.pdf = out.pdf_reverse = share;
        return true;
    }
    const Direction i = coat ? reflect(o, sample_visible_normal(o, m.alpha, u.x, u.y))
                             : sample_cosine_hemisphere(u.x, u.y);
    if (i.z <= 0.0F) return false;
    out.wi = on_side_of(i, wo);
    out.pdf = pdf(m, wo, out.wi);
    if (!(out.pdf > 0.0F)) return false;
    out.pdf_reverse = pdf(m, out.wi, wo);
    out.weight = eval(m, wo, out.wi, carrying) * (i.z / out.pdf);
    return true;
}

}  // namespace dapple
