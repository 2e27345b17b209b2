#include "spectrum/white_balance.h"

#include <algorithm>
#include <cmath>

#include "spectrum/chromaticity.h"
#include "spectrum/illuminants.h"
#include "spectrum/observer.h"

namespace dapple {

namespace {

constexpr double kDaylightFrom = 4000.0;  // K; the CIE formula starts here
constexpr double kPlanckianUpTo = 3500.0;
constexpr double kDaylightUpTo = 25000.0;

// GLM stores columns; this function takes rows, as printed.
DMat3 from_rows(const Xyz& a, const Xyz& b, const Xyz& c) {
    return glm::transpose(DMat3(a, b, c));
}

Xyz white_of(const Curve& light) {
    const Xyz xyz = integrate_xyz(light);
    return xyz / xyz.y;
}

// Columns: the primaries, scaled so that they sum to the white.
DMat3 matrix_of_primaries(Xy red, Xy green, Xy blue, const Xyz& white) {
    const DMat3 unscaled(xyz_of(red), xyz_of(green), xyz_of(blue));
    const Xyz scale = glm::inverse(unscaled) * white;
    return DMat3(unscaled[0] * scale.x, unscaled[1] * scale.y, unscaled[2] * scale.z);
}

// The locus at `kelvin`, moved by `share` of the step from it to daylight at 4000 K.
Xyz planckian_towards_daylight(double kelvin, double share) {
    const Uv at = planckian_uv(kelvin);
    const Uv locus = planckian_uv(kDaylightFrom);
    const Uv day = uv_1960(white_of(daylight(kDaylightFrom)));
    return xyz_of(xy_of(Uv{at.u + share * (day.u - locus.u), at.v + share * (day.v - locus.v)}));
}

}  // namespace

Xyz d65_white() {
    static const Xyz white = white_of(daylight_d65());
    return white;
}

DMat3 bradford_adaptation(const Xyz& from_white, const Xyz& to_white) {
    static const DMat3 cones = from_rows(
        Xyz(0.8951, 0.2664, -0.1614), Xyz(-0.7502, 1.7135, 0.0367), Xyz(0.0389, -0.0685, 1.0296));
    const Xyz gain = (cones * to_white) / (cones * from_white);
    const DMat3 scale(Xyz(gain.x, 0, 0), Xyz(0, gain.y, 0), Xyz(0, 0, gain.z));
    return glm::inverse(cones) * scale * cones;
}

Xyz white_point_of(double white_k) {
    if (white_k >= kDaylightFrom) return white_of(daylight(std::min(white_k, kDaylightUpTo)));
    const double share = (white_k - kPlanckianUpTo) / (kDaylightFrom - kPlanckianUpTo);
    return planckian_towards_daylight(white_k, std::clamp(share, 0.0, 1.0));
}

const DMat3& xyz_from_linear_rec709() {
    static const DMat3 matrix =
        matrix_of_primaries({0.640, 0.330}, {0.300, 0.600}, {0.150, 0.060}, d65_white());
    return matrix;
}

const DMat3& linear_rec709_from_xyz() {
    static const DMat3 matrix = glm::inverse(xyz_from_linear_rec709());
    return matrix;
}

Rgb linear_rec709_from_xyz(const Xyz& xyz) {
    return Rgb(linear_rec709_from_xyz() * xyz);
}
Xyz xyz_from_linear_rec709(const Rgb& rgb) {
    return xyz_from_linear_rec709() * Xyz(rgb);
}

float srgb_encode(float linear) {
    const float x = std::abs(linear);
    const float code = x <= 0.0031308F ? 12.92F * x : 1.055F * std::pow(x, 1.0F / 2.4F) - 0.055F;
    return std::copysign(code, linear);
}

float srgb_decode(float code) {
    const float x = std::abs(code);
    const float linear = x <= 0.04045F ? x / 12.92F : std::pow((x + 0.055F) / 1.055F, 2.4F);
    return std::copysign(linear, code);
}

}  // namespace dapple
