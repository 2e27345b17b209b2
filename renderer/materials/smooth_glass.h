// A polished interface between two clear media: mirror direction and refracted direction, chosen
// by the Fresnel reflectance at the hero wavelength.
//
// Reflection keeps all wavelengths, weighted F_j / F_hero. Where the index differs between
// wavelengths, refraction separates them: the hero goes on with weight 8 (the number of heroes that
// share the light, Wilkie et al. 2014), and the others end. Refraction scales radiance by (ηo/ηi)²;
// it does not change flux (E42).
#pragma once

#include "materials/fresnel.h"
#include "materials/scatter.h"

namespace dapple {

struct SmoothGlass {
    Spectrum eta;  // index inside (z < 0) / index outside
    int hero = 0;
    bool dispersive = false;
    bool monochromatic = false;  // the walk has only its hero left
};

inline Spectrum eval(const SmoothGlass&, const Direction&, const Direction&, Carrying) {
    return Spectrum(0.0F);
}
inline float pdf(const SmoothGlass&, const Direction&, const Direction&) {
    return 0.0F;
}

// Index beyond / index on wo's side.
inline float eta_from(const Spectrum& eta, int j, float wo_z) {
    return wo_z > 0.0F ? eta[j] : 1.0F / eta[j];
}
inline Spectrum eta_from(const Spectrum& eta, float wo_z) {
    if (wo_z > 0.0F) return eta;
    Spectrum inverse;
    for (int j = 0; j < kSpectrumSize; ++j) inverse.v[j] = 1.0F / eta.v[j];
    return inverse;
}

// The weight after refraction: `weight` for every wavelength, or for the hero alone.
inline Spectrum refracted_weight(bool dispersive, bool monochromatic, int hero, float weight) {
    if (!dispersive) return Spectrum(weight);
    const float of_hero = monochromatic ? weight : weight * kSpectrumSize;
    Spectrum w;
    for (int j = 0; j < kSpectrumSize; ++j) w.v[j] = j == hero ? of_hero : 0.0F;
    return w;
}

// Chooses between reflection and refraction from wo's cosine alone, and sets only z of out.wi.
// Returns k: the rest of wi is -k times the rest of wo. Returns 0 if there is no direction.
inline float choose(const SmoothGlass& m, float wo_z, float u, Carrying carrying, BsdfSample& out) {
    out.clear_kind();
    out.delta = true;
    const float cos_o = std::abs(wo_z);
    // Divisions take most of the time here: one serves both ratios, and the reflectances need two.
    const float inside = m.eta[m.hero];
    const float outside = 1.0F / inside;
    const float eta = wo_z > 0.0F ? inside : outside;
    const float per_eta = wo_z > 0.0F ? outside : inside;
    const float sin2_t = (1.0F - cos_o * cos_o) * per_eta * per_eta;
    const float cos_t = std::sqrt(std::max(0.0F, 1.0F - sin2_t));
    const PolarisedReflectance polarised = fresnel_polarised(cos_o, cos_t, eta);
    const float reflectance = 0.5F * (polarised.s + polarised.p);
    if (u < reflectance) {
        out.wi.z = wo_z;
        out.weight = m.dispersive
                         ? fresnel_dielectric(cos_o, eta_from(m.eta, wo_z)) * (1.0F / reflectance)
                         : Spectrum(1.0F);
        out.pdf = out.pdf_reverse = reflectance;
        return 1.0F;
    }
    out.wi.z = wo_z > 0.0F ? -cos_t : cos_t;
    const float scale = carrying == Carrying::kRadiance ? per_eta * per_eta : 1.0F;
    out.weight = refracted_weight(m.dispersive, m.monochromatic, m.hero, scale);
    out.pdf = out.pdf_reverse = 1.0F - reflectance;
    out.transmitted = true;
    out.dispersed = m.dispersive;
    return out.pdf > 0.0F ? per_eta : 0.0F;
}

inline bool sample(
    const SmoothGlass& m, const Direction& wo, const Vec3& u, Carrying carrying, BsdfSample& out) {
    const float k = choose(m, wo.z, u.z, carrying, out);
    out.wi.x = -k * wo.x;
    out.wi.y = -k * wo.y;
    return k > 0.0F;
}

// The same around a normal n in the world, without a local frame. n and wo are in the world.
inline bool sample_around(const SmoothGlass& m,
                          const Normal& n,
                          const Direction& wo,
                          float u,
                          Carrying carrying,
                          WorldSample& out) {
    const float wo_z = glm::dot(n, wo);
    const float k = choose(m, wo_z, u, carrying, out.local);
    out.wi = (out.local.wi.z + k * wo_z) * n - k * wo;
    return k > 0.0F;
}

}  // namespace dapple
