#include "lenses/vignetting.h"

#include <algorithm>
#include <cmath>

#include "lenses/ghost_sheet.h"

namespace dapple {

namespace {

constexpr int kVignettingAngles = 24;
constexpr int kVignettingRays = 65;  // across the part of the front that is used
constexpr double kFarObject = 1e7;   // mm
constexpr int kVignettingBand = 4;   // 550 nm

}  // namespace

Vignetting::Vignetting(const RealLens& lens, const Hood& hood, double widest_angle)
    : widest_(std::tan(widest_angle)) {
    const LightRoute route = image_route(lens.glass());
    for (int k = 0; k <= kVignettingAngles; ++k) {
        const double angle = std::atan(widest_ * k / kVignettingAngles);
        const LensVec far(kFarObject * std::sin(angle), 0, -kFarObject * std::cos(angle));
        const GhostSheet sheet =
            trace_sheet(lens, hood, route, far, kVignettingBand, kVignettingRays);
        const double share =
            static_cast<double>(sum_sheet(lens, route, sheet).share[kVignettingBand]);
        table_.push_back(share * std::pow(std::cos(angle), 4));
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
