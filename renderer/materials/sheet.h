// Cloth, paper, diffusion: a sheet without thickness, the same on both sides.
//
//   reflection    f = ρ/π on the side of wo
//   transmission  f = τ k / (m m), the forward lobe of sheet_lobe.h
//   straight on   the direct part: not a lobe, connections pass through it (bsdf.h)
// What is neither reflected nor transmitted is absorbed.
#pragma once

#include "materials/scatter.h"
#include "materials/sheet_lobe.h"
#include "math/warps.h"

namespace dapple {

struct Sheet {
    Spectrum reflectance;
    const SheetLobe* lobe = nullptr;
    float forward = 0;  // τ, without the direct part
    float direct = 0;
    float reflected_share = 0;  // share of reflection in draws that do not pass straight
};

inline Sheet make_sheet(const Spectrum& reflectance,
                        const SheetLobe& lobe,
                        float forward,
                        float direct) {
    const float mean = reflectance.mean();
    const float both = mean + forward;
    return {.reflectance = reflectance,
            .lobe = &lobe,
            .forward = forward,
            .direct = direct,
            .reflected_share = both > 0.0F ? mean / both : 0.5F};
}

inline Spectrum eval(const Sheet& m, const Direction& wo, const Direction& wi, Carrying) {
    if (wo.z == 0.0F || wi.z == 0.0F) return Spectrum(0.0F);
    if (same_side(wo, wi)) return m.reflectance * kInvPiF;
    const Direction o = on_side_of(wo, wo);
    return Spectrum(m.forward * eval(*m.lobe, o, flipped(on_side_of(wi, wo))));
}

inline float pdf(const Sheet& m, const Direction& wo, const Direction& wi) {
    if (wo.z == 0.0F || wi.z == 0.0F) return 0.0F;
    if (same_side(wo, wi)) return m.reflected_share * pdf_cosine_hemisphere(std::abs(wi.z));
    const Direction o = on_side_of(wo, wo);
    return (1.0F - m.reflected_share) * pdf(*m.lobe, o, flipped(on_side_of(wi, wo)));
}

inline bool sample(
    const Sheet& m, const Direction& wo, const Vec3& u, Carrying carrying, BsdfSample& out) {
    out.clear_kind();
    out.transmitted = u.z >= m.reflected_share;
    if (out.transmitted) {
        // The random number that chose the side is rescaled and used again within the lobe.
        const float rest = (u.z - m.reflected_share) / (1.0F - m.reflected_share);
        const Direction up = sample(*m.lobe, on_side_of(wo, wo), Vec3(u.x, u.y, rest));
        out.wi = on_side_of(flipped(up), wo);
    } else {
        out.wi = on_side_of(sample_cosine_hemisphere(u.x, u.y), wo);
    }
    out.pdf = pdf(m, wo, out.wi);
    if (!(out.pdf > 0.0F)) return false;
    out.pdf_reverse = pdf(m, out.wi, wo);
    out.weight = eval(m, wo, out.wi, carrying) * (std::abs(out.wi.z) / out.pdf);
    return true;
}

}  // namespace dapple
