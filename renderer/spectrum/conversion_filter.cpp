#include "spectrum/conversion_filter.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "spectrum/chromaticity.h"
#include "spectrum/observer.h"

namespace dapple {

namespace {

constexpr double kBluePassesBest = 400;
constexpr double kOrangePassesBest = 700;

double mired_of(const Curve& light) {
    return 1e6 / cct_duv_of(integrate_xyz(light)).cct_k;
}

}  // namespace

Curve conversion_filter(double strength_mired) {
    const double best = strength_mired < 0 ? kBluePassesBest : kOrangePassesBest;
    return Curve([&](double nm) {
        return std::min(1.0,
                        std::exp(-kSecondRadiation * 1e-6 * strength_mired * (1 / nm - 1 / best)));
    });
}

double conversion_strength(const Curve& light, double shift_mired) {
    if (shift_mired == 0) return 0;
    const double wanted = mired_of(light) + shift_mired;
    double low = std::min(0.0, 3 * shift_mired);
    double high = std::max(0.0, 3 * shift_mired);
    for (int i = 0; i < 40; ++i) {
        const double middle = 0.5 * (low + high);
        (mired_of(light * conversion_filter(middle)) < wanted ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

}  // namespace dapple
