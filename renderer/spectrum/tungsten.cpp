#include "spectrum/tungsten.h"

#include <cmath>

#include "base/kept_parts.h"
#include "base/units.h"
#include "spectrum/chromaticity.h"
#include "spectrum/illuminants.h"
#include "spectrum/observer.h"

namespace dapple {

namespace {

constexpr double kCctExponent = 0.42;
constexpr double kPowerExponent = 1.6;

// SI, 2019.
constexpr double kPlanck = 6.62607015e-34;           // J s
constexpr double kLightSpeed = 299792458.0;          // m/s
constexpr double kBoltzmann = 1.380649e-23;          // J/K
constexpr double kStefanBoltzmann = 5.670374419e-8;  // W/(m² K⁴)

constexpr double kReference = 560e-9;  // m, where planck() is 1

// Planck's radiance at 560 nm, W/(m² sr m).
double radiance_at_reference(double kelvin) {
    const double x = kPlanck * kLightSpeed / (kBoltzmann * kReference * kelvin);
    return 2 * kPlanck * kLightSpeed * kLightSpeed / (std::pow(kReference, 5) * std::expm1(x));
}

}  // namespace

double blackbody_efficacy(double kelvin) {
    const double luminance = luminous_flux(planck(kelvin)) * 1e-9 * radiance_at_reference(kelvin);
    return luminance / (kStefanBoltzmann * std::pow(kelvin, 4) / kPi);
}

double dimmed_tungsten_cct(double full_cct_k, double relative_voltage) {
    return full_cct_k * std::pow(relative_voltage, kCctExponent);
}

double dimmed_tungsten_light(double full_cct_k, double relative_voltage) {
    return std::pow(relative_voltage, kPowerExponent) *
           blackbody_efficacy(dimmed_tungsten_cct(full_cct_k, relative_voltage)) /
           blackbody_efficacy(full_cct_k);
}

DimmedTungsten dim_tungsten(double full_cct_k, double light_share) {
    if (light_share >= 1) return {1, full_cct_k};
    const auto find = [&]() -> DimmedTungsten {
        double low = std::pow(kMinCct / full_cct_k, 1 / kCctExponent);
        double high = 1;
        while (high - low > 1e-9) {
            const double middle = 0.5 * (low + high);
            (dimmed_tungsten_light(full_cct_k, middle) < light_share ? low : high) = middle;
        }
        const double voltage = 0.5 * (low + high);
        return {voltage, dimmed_tungsten_cct(full_cct_k, voltage)};
    };
    if (!keeps_parts()) return find();
    // It takes a third of a millisecond, for each lamp of each frame.
    std::string key = "dimmed tungsten";
    add_to_key(key, full_cct_k);
    add_to_key(key, light_share);
    return *kept_or_made<DimmedTungsten>(
        key, find, [](const DimmedTungsten& dimmed) { return sizeof dimmed; });
}

}  // namespace dapple
