// A tungsten lamp on a dimmer that lowers its voltage: less light, and warmer.
//
//   T = T0 v^0.42,   Φ/Φ0 = v^1.6 K(T)/K(T0)                                               (E24)
//   K(T) = 683 ∫ V B dλ / (σ T⁴/π)     luminous efficacy of a blackbody, B Planck's radiance
//
// v is the voltage over the rated voltage, T0 and T are the correlated colour temperatures in K,
// Φ/Φ0 is the share of the light that is left. The exponents of colour temperature and power are
// those of incandescent lamps in general (IES Lighting Handbook, 10th ed., from memory); K is
// computed. The handbooks' law for the light alone, Φ ~ v^3.4, agrees within 4 % down to v = 0.7
// but gives 29 % too much light at half the voltage: it ignores that a cooler filament radiates a
// smaller share of its power as light. Spectrum and CCT are those of a blackbody. Tungsten's own
// emissivity falls a little over the visible range; its CCT already includes that.
#pragma once

namespace dapple {

double blackbody_efficacy(double kelvin);  // K, lm per watt of all radiation; from 800 K up

// E24 for a relative voltage, 0 < v <= 1.
double dimmed_tungsten_cct(double full_cct_k, double relative_voltage);
double dimmed_tungsten_light(double full_cct_k, double relative_voltage);

struct DimmedTungsten {
    double relative_voltage = 1;
    double cct_k = 0;
};

// E24 solved for v, from the share of the light that is left, 0 to 1. The temperature is at least
// 800 K, where less than a billionth of the light is left.
DimmedTungsten dim_tungsten(double full_cct_k, double light_share);

}  // namespace dapple
