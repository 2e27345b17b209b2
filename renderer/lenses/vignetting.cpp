#include "lenses/vignetting.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr int kVignettingAngles = 24;
constexpr int kVignettingRays = 91;  // across the part of the front that may pass
constexpr double kFarObject = 1e7;   // mm
constexpr int kVignettingBand = 4;   // 550 nm

// Area of the plane of the first vertex through which light at this angle gets to the film, mm².
// The beam goes through the entrance pupil; aberration may move it and widen it.
double passing_area(const RealLens& lens, const Hood& hood, double angle) {
    const LightRoute route = image_route(lens.glass());
    const LensVec far(kFarObject * std::sin(angle), 0, -kFarObject * std::cos(angle));
    const double middle = lens.entrance_depth() * std::tan(angle);
    const double half_y = 1.4 * lens.entrance_radius();
    const double half_x = half_y + 0.4 * std::abs(middle);
    double rays = 0;
    for (int k = 0; k < kVignettingRays * kVignettingRays; ++k) {
        const double u = (2 * (k % kVignettingRays) + 1.0) / kVignettingRays - 1;
        const double v = (2 * (k / kVignettingRays) + 1.0) / kVignettingRays - 1;
        const LensRay ray = ray_to_front(far, middle + u * half_x, v * half_y);
        if (!hood.lets_in(ray)) continue;
        const LensArrival arrival = trace_route(lens, route, ray, kVignettingBand);
        if (!is_through(lens, route, arrival)) continue;
        rays += static_cast<double>(arrival.passed[kVignettingBand]);
    }
    return rays * 4 * half_x * half_y / (kVignettingRays * kVignettingRays);
}

}  // namespace

Vignetting::Vignetting(const RealLens& lens, const Hood& hood, double widest_angle)
    : widest_(std::tan(widest_angle)) {
    for (int k = 0; k <= kVignettingAngles; ++k) {
        const double angle = std::atan(widest_ * k / kVignettingAngles);
        table_.push_back(passing_area(lens, hood, angle) * std::pow(std::cos(angle), 4));
    }
    const double middle = table_.front();
    for (double& v : table_) v = middle > 0 ? v / middle : 1;
}

double Vignetting::at(double tangent) const {
    const double x = std::clamp(tangent / widest_, 0.0, 1.0) * kVignettingAngles;
    const int i = std::min(static_cast<int>(x), kVignettingAngles - 1);
    return std::lerp(table_[static_cast<size_t>(i)], table_[static_cast<size_t>(i) + 1], x - i);
}

}  // namespace dapple
