// Polished metal, the same on both sides: the mirror direction with the conductor's reflectance.
#pragma once

#include "materials/fresnel.h"
#include "materials/scatter.h"

namespace dapple {

struct Mirror {
    Spectrum reflectance;  // at normal incidence
};

inline Spectrum eval(const Mirror&, const Direction&, const Direction&, Carrying) {
    return Spectrum(0.0F);
}
inline float pdf(const Mirror&, const Direction&, const Direction&) {
    return 0.0F;
}

inline bool sample(const Mirror& m, const Direction& wo, const Vec3&, Carrying, BsdfSample& out) {
    out.clear_kind();
    out.delta = true;
    out.wi = mirrored(wo);
    out.weight = fresnel_conductor(std::abs(wo.z), m.reflectance);
    out.pdf = out.pdf_reverse = 1.0F;
    return true;
}

}  // namespace dapple
