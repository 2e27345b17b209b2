// The forward lobe of a thin scattering sheet: light leaves around the direction it came in.
//
//   f/τ = k(γ) / (m(cosθo) m(cosθi)),   k(γ) = exp(-κ (1 - cosγ)),   γ from the straight direction
//   m such that  ∫ f/τ |cosθi| dωi = 1  for every wo                                          (E47)
// The lobe is symmetric, so it is reciprocal. m is found by symmetric scaling (Sinkhorn 1964), so
// the lobe transmits exactly τ from any direction. κ follows from the spread: under light along the
// normal the intensity, f cosθ, is halved at that angle. A Lambertian lobe (κ = 0) is halved at 60
// degrees and is used for all wider spreads. The model is our own: one number per cloth, from
// nearly clear to white.
#pragma once

#include "materials/cosine_table.h"
#include "materials/scatter.h"

namespace dapple {

struct SheetLobe {
    float concentration = 0;  // κ
    float normaliser = 0;     // of k over the sphere: ∫ normaliser k dω = 1
    float cosine_share = 1;   // share of draws that are cosine-weighted, not around the lobe
    CosineTable m;
};

// A lobe narrower than this (half a degree) is treated as light that passes straight through.
inline constexpr float kNarrowestSpread = 0.00873F;

SheetLobe make_sheet_lobe(float spread);
// The same; a lobe that was made before may be kept (base/kept_parts.h).
SheetLobe kept_sheet_lobe(float spread);

// wo.z > 0, and wi is mirrored to the side of wo: straight on is wi = mirrored(wo).
float eval(const SheetLobe& lobe, const Direction& wo, const Direction& wi);
float pdf(const SheetLobe& lobe, const Direction& wo, const Direction& wi);
Direction sample(const SheetLobe& lobe, const Direction& wo, const Vec3& u);

}  // namespace dapple
