// The ideal colour conversion filter: it turns one Planckian light into another (Wien).
//
//   T(λ) = min(1, exp(-c2 d (1/λ - 1/λ0)))                                                  (E25)
// d is the strength in 1/K (mired · 1e-6), positive towards orange. At λ0 the filter passes best:
// 700 nm for orange, 400 nm for blue. Beyond λ0, where the eye sees almost nothing, it passes all.
#pragma once

#include "spectrum/curve.h"

namespace dapple {

Curve conversion_filter(double strength_mired);

// The strength that shifts this light by `shift_mired`: 1e6/CCT grows by the shift (E26). For
// Planckian light it equals the shift within a few hundredths; LED light needs more.
double conversion_strength(const Curve& light, double shift_mired);

}  // namespace dapple
