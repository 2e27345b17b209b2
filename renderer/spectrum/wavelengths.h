// The eight wavelengths that all walks of one pass share.
//
//   p(λ) = 0.0041046487 / cosh²(0.0072 (λ - 538)) on 380–780 nm                          (E29)
//   λ_j = λ(u_j) by inversion of p,  u_j = frac(u + j/8)                                 (E30)
// u grows by (3 + φ)/8 with each pass, where φ is the fraction of the golden ratio. This spreads
// the wavelengths of all passes evenly, and also those of one index, which is the hero of a pixel
// in each pass. p is a visible-importance density (Radziszewski, Boryczko, Alda 2009,
// renormalised); each λ_j is distributed by it (Wilkie et al. 2014). Wavelengths in nm, densities
// per nm.
#pragma once

#include <cstdint>

#include "spectrum/spectrum.h"

namespace dapple {

inline constexpr double kMinWavelength = 380.0;  // nm
inline constexpr double kMaxWavelength = 780.0;

struct Wavelengths {
    Spectrum nm;
    Spectrum pdf;  // per nm
};

double sample_visible_wavelength(double u);
double pdf_visible_wavelength(double nm);

// Pass `pass` of the run with `seed`: the same wavelengths in every process.
Wavelengths make_pass_wavelengths(uint64_t seed, uint32_t pass);

}  // namespace dapple
