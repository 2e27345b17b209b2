// The ideal colour conversion filter: what turns one Planckian light into another (Wien).
//
//   T(λ) = min(1, exp(-c2 d (1/λ - 1/λ0)))                                                  (E90)
// d its strength in 1/K (mired · 1e-6), above 0 towards orange; λ0 = 700 nm there and 400 nm for
// blue: where it passes best. Beyond λ0, where the eye sees next to nothing, it passes all.
#pragma once

#include "spectrum/curve.h"

namespace dapple {

Curve conversion_filter(double strength_mired);

// The strength that shifts this very light by `shift_mired`: 1e6/CCT grows by the shift. For
// Planckian light it is the shift but for a few hundredths; LED light wants more of it. (E91)
double conversion_strength(const Curve& light, double shift_mired);

}  // namespace dapple
