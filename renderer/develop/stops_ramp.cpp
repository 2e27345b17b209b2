#include "develop/stops_ramp.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "base/units.h"
#include "spectrum/white_balance.h"

namespace dapple {

namespace {

constexpr size_t kSteps = 512;

double lab_function(double x) {
    constexpr double kCut = 216.0 / 24389.0;
    constexpr double kSlope = 24389.0 / 27.0;
    return x > kCut ? std::cbrt(x) : (kSlope * x + 16) / 116;
}

double inverse_lab_function(double f) {
    constexpr double kCut = 6.0 / 29.0;
    return f > kCut ? f * f * f : 3 * kCut * kCut * (f - 4.0 / 29.0);
}

// E158
Lab path_at(double t) {
    const double chroma = (26 - 8 * std::sin(2 * kPi * t)) * (1 - 0.35 * t * t * t);
    const double hue = radians_from_degrees(300 - 205 * t);
    return {10 + 86 * t, chroma * std::cos(hue), chroma * std::sin(hue)};
}

Rgb srgb_of(const Lab& lab) {
    const double fy = (lab.l + 16) / 116;
    const Xyz xyz = d65_white() * Xyz(inverse_lab_function(fy + lab.a / 500),
                                      inverse_lab_function(fy),
                                      inverse_lab_function(fy - lab.b / 200));
    const Rgb linear = glm::clamp(linear_rec709_from_xyz(xyz), Rgb(0), Rgb(1));
    return {srgb_encode(linear.r), srgb_encode(linear.g), srgb_encode(linear.b)};
}

// Colour difference along the path from its start, as a share of the whole.
std::array<double, kSteps + 1> make_lengths() {
    std::array<double, kSteps + 1> lengths{};
    Lab last = path_at(0);
    for (size_t i = 1; i <= kSteps; ++i) {
        const Lab here = path_at(static_cast<double>(i) / kSteps);
        lengths[i] = lengths[i - 1] + std::hypot(here.l - last.l, here.a - last.a, here.b - last.b);
        last = here;
    }
    for (double& length : lengths) length /= lengths.back();
    return lengths;
}

std::array<Rgb, kSteps + 1> make_colours() {
    const auto lengths = make_lengths();
    std::array<Rgb, kSteps + 1> colours{};
    size_t above = 1;
    for (size_t i = 0; i <= kSteps; ++i) {
        const double wanted = static_cast<double>(i) / kSteps;
        while (above < kSteps && lengths[above] < wanted) ++above;
        const double step = lengths[above] - lengths[above - 1];
        const double t = static_cast<double>(above - 1) + (wanted - lengths[above - 1]) / step;
        colours[i] = srgb_of(path_at(t / kSteps));
    }
    return colours;
}

}  // namespace

Rgb ramp_colour(double t) {
    static const std::array<Rgb, kSteps + 1> colours = make_colours();
    const double at = std::clamp(t, 0.0, 1.0) * kSteps;
    const auto below = std::min(static_cast<size_t>(at), kSteps - 1);
    const auto part = static_cast<float>(at - static_cast<double>(below));
    return glm::mix(colours[below], colours[below + 1], part);
}

Rgb colour_of_stops(double stops) {
    return ramp_colour((stops - kRampFirstStop) / (kRampLastStop - kRampFirstStop));
}

Lab lab_of_srgb(const Rgb& encoded) {
    const Rgb linear(srgb_decode(encoded.r), srgb_decode(encoded.g), srgb_decode(encoded.b));
    const Xyz xyz = xyz_from_linear_rec709(linear) / d65_white();
    const double fy = lab_function(xyz.y);
    return {116 * fy - 16, 500 * (lab_function(xyz.x) - fy), 200 * (fy - lab_function(xyz.z))};
}

}  // namespace dapple
