// The CIE 1931 2° standard observer, and XYZ of spectra.
#pragma once

#include "math/vec.h"
#include "spectrum/curve.h"

namespace dapple {

struct Observer {
    Curve x, y, z;
};

// 1 nm table, 380–780 nm (CIE 018:2019 data set; y = V(λ)).
const Observer& cie_1931();

// (∫S x̄, ∫S ȳ, ∫S z̄), not scaled: 1 nm sums over 380–780 nm.                                (E16)
Xyz integrate_xyz(const Curve& spectrum);

// Luminous flux, 683 ∫ S V dλ: lm for a spectrum in W/nm.                                     (E17)
double luminous_flux(const Curve& spectrum);

}  // namespace dapple
