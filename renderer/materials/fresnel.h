// Reflection and refraction at one surface, for unpolarised light.
//
//   r_s = (cosθi - η cosθt) / (cosθi + η cosθt),  r_p = (η cosθi - cosθt) / (η cosθi + cosθt)
//   F = (r_s² + r_p²) / 2,  sinθi = η sinθt,  η = index beyond / index on this side           (E32)
// Exact for dielectrics, total reflection included (Born and Wolf, Principles of Optics, 1.5).
// Conductors: Schlick 1994 (E33) from the reflectance at normal incidence; their exact formula
// would need an index and an extinction that set files do not give. Cosines are to the normal and
// not negative.
#pragma once

#include <algorithm>
#include <cmath>

#include "math/vec.h"
#include "spectrum/spectrum.h"

namespace dapple {

// Cosine on the far side; 0 at and beyond the critical angle.
inline float refracted_cosine(float cos_i, float eta) {
    const float sin2_t = (1.0F - cos_i * cos_i) / (eta * eta);
    return std::sqrt(std::max(0.0F, 1.0F - sin2_t));
}

// Reflectance of the two polarisations.
struct PolarisedReflectance {
    float s, p;
};

inline PolarisedReflectance fresnel_polarised(float cos_i, float cos_t, float eta) {
    // The tiny term prevents 0/0, at grazing incidence and the critical angle.
    const float s = (cos_i - eta * cos_t) / (cos_i + eta * cos_t + 1e-30F);
    const float p = (eta * cos_i - cos_t) / (eta * cos_i + cos_t + 1e-30F);
    // cosθt = 0 makes both 1, so total reflection needs no branch. cosθi = cosθt = 0 does need one.
    if (cos_i + cos_t == 0.0F) return {1.0F, 1.0F};
    return {s * s, p * p};
}
inline PolarisedReflectance fresnel_polarised(float cos_i, float eta) {
    return fresnel_polarised(cos_i, refracted_cosine(cos_i, eta), eta);
}

inline float fresnel_dielectric(float cos_i, float eta) {
    const PolarisedReflectance r = fresnel_polarised(cos_i, eta);
    return 0.5F * (r.s + r.p);
}

inline Spectrum fresnel_dielectric(float cos_i, const Spectrum& eta) {
    Spectrum f;
    for (int i = 0; i < kSpectrumSize; ++i) f.v[i] = fresnel_dielectric(cos_i, eta.v[i]);
    return f;
}

inline Spectrum fresnel_conductor(float cos_i, const Spectrum& at_normal) {
    const float m = std::clamp(1.0F - cos_i, 0.0F, 1.0F);
    const float m5 = m * m * m * m * m;
    return at_normal * (1.0F - m5) + Spectrum(m5);
}

// The direction beyond an interface with unit normal h on wo's side. `eta` and `cos_t` as above,
// cos_i = dot(wo, h).
inline Direction refract(
    const Direction& wo, const Direction& h, float cos_i, float cos_t, float eta) {
    return (cos_i / eta - cos_t) * h - wo / eta;
}

// Average of F over light from a whole hemisphere, ∫ F(θ) 2 cosθ sinθ dθ. It satisfies
// 1 - average(1/η) = (1 - average(η)) / η².                                                   (E34)
double diffuse_fresnel(double eta);

}  // namespace dapple
