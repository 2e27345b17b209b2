// Relative spectral power of the standard lights, 1 at 560 nm.
//
//   Planck   S = (560/λ)⁵ (exp(c2/560 T) - 1) / (exp(c2/λ T) - 1)                             (E20)
//   daylight S = S0 + M1 S1 + M2 S2, M from the chromaticity of the CIE daylight locus        (E21)
//
// c2 = 0.0143877688 m K (SI). Source: CIE 015:2018. Curves end at 380 and 780 nm: against 360–830
// nm this moves the xy of D65 by (+0.00001, +0.00003) and that of A by less than 0.00002.
#pragma once

#include "spectrum/curve.h"

namespace dapple {

Curve planck(double kelvin);  // kelvin > 0

// CIE daylight of correlated colour temperature `cct_k`, 4000 … 25000 K. `cct_k` is used as given:
// for an illuminant named by its old nominal temperature (D50, D55, D65, D75), multiply that
// temperature by 1.4388/1.4380 first. M1 and M2 are rounded to three decimals, as the CIE does.
Curve daylight(double cct_k);

Curve daylight_d65();  // daylight(6503.6 K): the tabulated standard illuminant
Curve illuminant_a();  // by its own definition: c2 = 0.01435 m K and 2848 K, which is 2855.5 K
Curve equal_energy();

}  // namespace dapple
