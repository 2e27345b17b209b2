#include "rebalance/relight.h"

#include <algorithm>
#include <cmath>

#include "spectrum/measured_reflectance.h"
#include "spectrum/observer.h"
#include "spectrum/rgb_reflectance.h"

namespace dapple {

namespace {

// The columns X of E172.
DMat3 basis_under(const Curve& source) {
    const RgbBasis& basis = rgb_basis();
    return DMat3(integrate_xyz(source * basis.r),
                 integrate_xyz(source * basis.g),
                 integrate_xyz(source * basis.b));
}

// Whether b = scale · a within rounding.
bool are_multiples(const Curve& a, const Curve& b, double scale) {
    double highest = 0;
    double off = 0;
    for (int i = 0; i < Curve::kSize; ++i) {
        highest = std::max(highest, scale * static_cast<double>(a[i]));
        off =
            std::max(off, std::abs(static_cast<double>(b[i]) - scale * static_cast<double>(a[i])));
    }
    return off <= 1e-5 * highest;
}

// Spectra that the three curves cannot mix.
std::vector<Curve> trial_reflectances() {
    using M = MeasuredReflectance;
    std::vector<Curve> trials;
    for (const M kind : {M::kLightSkin, M::kMediumSkin, M::kDarkSkin, M::kDarkHair, M::kFairHair}) {
        trials.push_back(measured_reflectance(kind));
    }
    for (const Rgb& colour : {Rgb(0.6F, 0.2F, 0.1F),
                              Rgb(0.2F, 0.5F, 0.15F),
                              Rgb(0.1F, 0.2F, 0.6F),
                              Rgb(0.6F, 0.5F, 0.1F)}) {
        const Curve once = reflectance_curve(colour);
        trials.push_back(once * once);
    }
    return trials;
}

void find_errors(const Curve& was, const Curve& is, Relight& relight) {
    static const std::vector<Curve> trials = trial_reflectances();
    for (const Curve& reflectance : trials) {
        const Xyz truth = integrate_xyz(is * reflectance);
        const Xyz off = glm::abs(relight.matrix * integrate_xyz(was * reflectance) - truth);
        if (!(truth.y > 0)) continue;
        relight.luminance_error = std::max(relight.luminance_error, off.y / truth.y);
        relight.colour_error =
            std::max(relight.colour_error, std::max({off.x, off.y, off.z}) / truth.y);
    }
}

}  // namespace

Relight make_relight(const Curve& was, const Curve& is) {
    const double scale = luminous_flux(is) / luminous_flux(was);
    if (are_multiples(was, is, scale)) return {.matrix = DMat3(scale)};
    Relight relight{.matrix = basis_under(is) * glm::inverse(basis_under(was))};
    find_errors(was, is, relight);
    return relight;
}

}  // namespace dapple
