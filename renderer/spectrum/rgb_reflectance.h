// Linear Rec.709 colours as reflectance spectra.
//
//   ρ(λ) = R r(λ) + G g(λ) + B b(λ)                                                      (E31)
// Mallett and Yuksel 2019, doi 10.2312/SR.20191216.
// The published curves are corrected to our own integrator (1 nm, our D65): with A the matrix of
// linear RGB that they give under it, (r, g, b) inv(A) round-trips exactly. r + g + b = 1 at every
// wavelength and none is negative, so ρ stays within 0 … 1 for colours within 0 … 1.
#pragma once

#include "math/vec.h"
#include "spectrum/curve.h"

namespace dapple {

struct RgbBasis {
    Curve r, g, b;
};
const RgbBasis& rgb_basis();

Curve reflectance_curve(const Rgb& linear_rec709);

// The basis at the wavelengths of a pass, so that a texel costs three multiplications.
struct RgbBasisSample {
    Spectrum r, g, b;

    Spectrum lift(const Rgb& linear_rec709) const {
        return r * linear_rec709.x + g * linear_rec709.y + b * linear_rec709.z;
    }
};
RgbBasisSample sample_rgb_basis(const Wavelengths& wavelengths);

}  // namespace dapple
