// A ground interface between two clear media (Walter et al. 2007), GGX facets.
//
//   reflection    f = F D G2 / (4 cosθo cosθi)
//   transmission  f = |wo·h| |wi·h| / (cosθo cosθi) · n² (1-F) D G2 / (ni (wi·h) + no (wo·h))²
//   n = no for radiance, ni for flux;  h ∝ ∓(no wo + ni wi), on the outer side                (E43)
// A facet is drawn from those visible from wo. The hero's F then chooses between reflection and
// refraction. As with polished glass (smooth_glass.h), refraction keeps only the hero where the
// index differs between wavelengths: eval() then returns 8 times the value for the hero and 0 for
// the others. Light that would meet a second facet is lost: a few per cent at roughness 0.3, a
// third of the reflection at roughness 1.
#pragma once

#include "materials/fresnel.h"
#include "materials/microfacet.h"
#include "materials/scatter.h"
#include "materials/smooth_glass.h"

namespace dapple {

struct RoughGlass {
    Spectrum eta;  // index inside (z < 0) / index outside
    float alpha = 0.1F;
    int hero = 0;
    bool dispersive = false;
    bool monochromatic = false;
};

// The facet that sends light from wo to wi; all directions as for wo.z > 0.
struct Microfacet {
    Direction h;
    float cos_o, cos_i;  // to h; cos_i < 0 in transmission
    bool valid;          // both directions are on the correct side of the facet
};

inline Microfacet refracting_facet(const Direction& o, const Direction& i, float eta) {
    Direction h = o + eta * i;
    const float length = glm::length(h);
    if (length < 1e-7F) return {Direction(0, 0, 1), 0, 0, false};
    h /= h.z < 0.0F ? -length : length;
    const float cos_o = glm::dot(o, h);
    const float cos_i = glm::dot(i, h);
    return {h, cos_o, cos_i, cos_o > 0.0F && cos_i < 0.0F};
}

inline Microfacet reflecting_facet(const Direction& o, const Direction& i) {
    const Direction h = glm::normalize(o + i);
    const float c = glm::dot(o, h);
    return {h, c, c, c > 0.0F};
}

inline Spectrum eval(const RoughGlass& m,
                     const Direction& wo,
                     const Direction& wi,
                     Carrying carrying) {
    if (wo.z == 0.0F || wi.z == 0.0F) return Spectrum(0.0F);
    const Direction o = on_side_of(wo, wo);
    const Direction i = on_side_of(wi, wo);
    if (i.z > 0.0F) {
        const Microfacet facet = reflecting_facet(o, i);
        if (!facet.valid) return Spectrum(0.0F);
        const float lobe =
            ggx_density(facet.h, m.alpha) * smith_g2_reflection(o, i, m.alpha) / (4.0F * o.z * i.z);
        return fresnel_dielectric(facet.cos_o, eta_from(m.eta, wo.z)) * lobe;
    }
    const float eta = eta_from(m.eta, m.hero, wo.z);
    const Microfacet facet = refracting_facet(o, i, eta);
    if (!facet.valid) return Spectrum(0.0F);
    const float scale = carrying == Carrying::kRadiance ? 1.0F : eta * eta;
    const float f = std::abs(facet.cos_o * facet.cos_i / (o.z * i.z)) * scale *
                    (1.0F - fresnel_dielectric(facet.cos_o, eta)) * ggx_density(facet.h, m.alpha) *
                    smith_g2_transmission(o, i, m.alpha) / square(eta * facet.cos_i + facet.cos_o);
    return refracted_weight(m.dispersive, m.monochromatic, m.hero, f);
}

inline float pdf(const RoughGlass& m, const Direction& wo, const Direction& wi) {
    if (wo.z == 0.0F || wi.z == 0.0F) return 0.0F;
    const Direction o = on_side_of(wo, wo);
    const Direction i = on_side_of(wi, wo);
    const float eta = eta_from(m.eta, m.hero, wo.z);
    const bool reflected = i.z > 0.0F;
    const Microfacet facet = reflected ? reflecting_facet(o, i) : refracting_facet(o, i, eta);
    if (!facet.valid) return 0.0F;
    const float facet_pdf = pdf_visible_normal(o, facet.h, m.alpha);
    const float reflectance = fresnel_dielectric(facet.cos_o, eta);
    if (reflected) return facet_pdf * reflectance / (4.0F * facet.cos_o);
    return facet_pdf * (1.0F - reflectance) * eta * eta * -facet.cos_i /
           square(eta * facet.cos_i + facet.cos_o);
}

inline bool sample(
    const RoughGlass& m, const Direction& wo, const Vec3& u, Carrying carrying, BsdfSample& out) {
    out.clear_kind();
    if (wo.z == 0.0F) return false;
    const Direction o = on_side_of(wo, wo);
    const Direction h = sample_visible_normal(o, m.alpha, u.x, u.y);
    const float cos_o = glm::dot(o, h);
    if (cos_o <= 0.0F) return false;
    const float eta = eta_from(m.eta, m.hero, wo.z);
    out.transmitted = u.z >= fresnel_dielectric(cos_o, eta);
    const Direction i =
        out.transmitted ? refract(o, h, cos_o, refracted_cosine(cos_o, eta), eta) : reflect(o, h);
    if (out.transmitted ? i.z >= 0.0F : i.z <= 0.0F) return false;
    out.wi = on_side_of(glm::normalize(i), wo);
    out.pdf = pdf(m, wo, out.wi);
    if (!(out.pdf > 0.0F)) return false;
    out.pdf_reverse = pdf(m, out.wi, wo);
    out.weight = eval(m, wo, out.wi, carrying) * (std::abs(out.wi.z) / out.pdf);
    out.dispersed = out.transmitted && m.dispersive;
    return true;
}

}  // namespace dapple
