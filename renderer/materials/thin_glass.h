// A window pane as one surface. Light passes straight through or is mirrored. All reflections
// between its two faces are summed, for each polarisation separately.
//
//   a = exp(-α t / cosθt),   T = (1-R)² a / (1 - R² a²),   reflected = R (1 + a T)            (E46)
// The result is the mean of both polarisations (Duffie and Beckman, Solar Engineering of Thermal
// Processes, chapter 5). The straight part is not a lobe: connections pass through it (bsdf.h).
#pragma once

#include "materials/fresnel.h"
#include "materials/scatter.h"

namespace dapple {

struct ThinGlass {
    Spectrum eta;            // index of the glass over that of the air
    Spectrum optical_depth;  // α t, through the pane along the normal
};

struct PaneShares {
    Spectrum transmitted, reflected;
};

inline PaneShares pane_shares(const ThinGlass& m, float cos_o) {
    PaneShares shares;
    for (int j = 0; j < kSpectrumSize; ++j) {
        const float eta = m.eta.v[j];
        const PolarisedReflectance r = fresnel_polarised(cos_o, eta);
        const float a = std::exp(-m.optical_depth.v[j] / refracted_cosine(cos_o, eta));
        const auto through = [a](float x) {
            return square(1.0F - x) * a / std::max(1.0F - square(x * a), 1e-12F);
        };
        const float s = through(r.s);
        const float p = through(r.p);
        shares.transmitted.v[j] = 0.5F * (s + p);
        shares.reflected.v[j] = 0.5F * (r.s * (1.0F + a * s) + r.p * (1.0F + a * p));
    }
    return shares;
}

// Light that does not pass leaves only in the mirror direction.
inline Spectrum eval(const ThinGlass&, const Direction&, const Direction&, Carrying) {
    return Spectrum(0.0F);
}
inline float pdf(const ThinGlass&, const Direction&, const Direction&) {
    return 0.0F;
}

inline bool sample(
    const ThinGlass& m, const Direction& wo, const Vec3&, Carrying, BsdfSample& out) {
    out.clear_kind();
    out.delta = true;
    out.wi = mirrored(wo);
    out.weight = pane_shares(m, std::abs(wo.z)).reflected;
    out.pdf = out.pdf_reverse = 1.0F;
    return true;
}

}  // namespace dapple
