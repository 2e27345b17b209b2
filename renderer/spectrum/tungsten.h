// A tungsten lamp on a dimmer that lowers its voltage: less light, and warmer.
//
//   T = T0 v^0.42,   Φ/Φ0 = v^1.6 K(T)/K(T0)                                               (E59)
//   K(T) = 683 ∫ V B dλ / (σ T⁴/π)     luminous efficacy of a blackbody, B Planck's radiance
//
// v is the voltage over the rated one, T0 and T the correlated colour temperatures in K, Φ/Φ0 the
// share of the light that is left. The exponents of colour temperature and power are those of
// incandescent lamps in general (IES Lighting Handbook, 10th ed., from memory); K is computed. The
// handbooks' law for the light alone, Φ ~ v^3.4, agrees within 4 % down to v = 0.7 but sends 29 %
// too much at half the voltage: it leaves out that a cooler filament radiates ever less of its
// power as light. Spectrum and CCT are taken as those of a blackbody; tungsten's own emissivity
// falls a little over the visible range, which its CCT holds already.
#pragma once

namespace dapple {

double blackbody_efficacy(double kelvin);  // K, lm per watt of all radiation; from 800 K up

// E59 at a voltage, 0 < v <= 1.
double dimmed_tungsten_cct(double full_cct_k, double relative_voltage);
double dimmed_tungsten_light(double full_cct_k, double relative_voltage);

struct DimmedTungsten {
    double relative_voltage = 1;
    double cct_k = 0;
};

// E59 solved for v: the lamp of which this share of the light is left, 0 to 1. It glows at 800 K at
// least, where less than a billionth is left.
DimmedTungsten dim_tungsten(double full_cct_k, double light_share);

}  // namespace dapple
