#include "lenses/real_lens.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "lenses/lens_wavelengths.h"
#include "lenses/paraxial.h"

namespace dapple {

namespace {

constexpr int kCosines = 256;
constexpr double kFocusWavelength = 550;  // nm
constexpr double kFarAway = 1e9;          // mm

}  // namespace

SurfaceReflectance::SurfaceReflectance(const LensSurface& s, LensCoating coating)
    : table_(kCosines + 1) {
    for (int c = 0; c <= kCosines; ++c) {
        const double cos_rarer = static_cast<double>(c) / kCosines;
        Spectrum& row = table_[static_cast<size_t>(c)];
        for (int j = 0; j < kSpectrumSize; ++j) {
            const double nm = kLensWavelengths[static_cast<size_t>(j)];
            double from = s.before.at(nm);
            double to = s.behind.at(nm);
            if (from > to) std::swap(from, to);
            const auto layers = make_layers(coating, from, to);
            row[j] = static_cast<float>(layer_reflectance(layers, from, to, cos_rarer, nm).mean());
        }
    }
}

Spectrum SurfaceReflectance::at(double cos_rarer) const {
    const double x = std::clamp(cos_rarer, 0.0, 1.0) * kCosines;
    const int i = std::min(static_cast<int>(x), kCosines - 1);
    const auto t = static_cast<float>(x - i);
    return (1 - t) * table_[static_cast<size_t>(i)] + t * table_[static_cast<size_t>(i) + 1];
}

bool StopShape::passes(double x, double y) const {
    const double r2 = x * x + y * y;
    if (r2 > radius * radius) return false;
    if (blades == 0) return true;
    const double inner = radius * std::cos(kPi / blades);
    if (r2 <= inner * inner) return true;
    // The middle of the edge that is nearest by angle.
    const double step = 2 * kPi / blades;
    const double a = std::atan2(y, x) - turn;
    const double off = a - step * (std::floor(a / step) + 0.5);
    return std::sqrt(r2) * std::cos(off) <= inner;
}

RealLens::RealLens(const Camera& camera)
    : glass_(make_prescription(camera.lens, 1e3 * static_cast<double>(camera.focal_length))),
      focal_length_(1e3 * static_cast<double>(camera.focal_length)) {
    const Paraxial first_order(glass_, kFocusWavelength);
    entrance_depth_ = first_order.entrance_pupil();
    const double focus = 1e3 * static_cast<double>(camera.focus_distance);
    const double object = focus > 0 ? focus - entrance_depth_ : kFarAway;
    film_z_ = glass_.surfaces.back().vertex + first_order.image_distance(object);
    set_stop(camera);
    for (const LensSurface& s : glass_.surfaces) {
        reflectance_.push_back(s.is_stop ? SurfaceReflectance()
                                         : SurfaceReflectance(s, camera.lens.coating));
    }
    axis_transmittance_ = Spectrum(1.0F);
    for (size_t k = 0; k < glass_.surfaces.size(); ++k) {
        if (!glass_.surfaces[k].is_stop) {
            axis_transmittance_ *= Spectrum(1.0F) - reflectance_[k].at(1);
        }
    }
}

RealLens RealLens::turned(double angle) const {
    RealLens other = *this;
    other.stop_.turn += angle;
    return other;
}

void RealLens::set_stop(const Camera& camera) {
    const Paraxial first_order(glass_, kFocusWavelength);
    const double height = first_order.height_at_stop();
    const double wanted = height * focal_length_ / (2 * static_cast<double>(camera.f_number));
    const double widest = glass_.surfaces[glass_.stop].free_radius;
    wide_open_ = wanted > widest;
    const double round = std::min(wanted, widest);
    // Wide open, the blades are out of the way.
    stop_.blades = wide_open_ ? 0 : camera.lens.blades;
    stop_.turn = static_cast<double>(camera.lens.blade_turn);
    stop_.radius = round;
    if (stop_.blades > 0) {
        const double m = stop_.blades;
        stop_.radius *= std::sqrt(kPi / (0.5 * m * std::sin(2 * kPi / m)));
    }
    entrance_radius_ = round / height;
    f_number_ = focal_length_ / (2 * entrance_radius_);
    const Paraxial::ExitPupil exit = first_order.exit_pupil();
    exit_z_ = glass_.surfaces.back().vertex + exit.distance;
    exit_radius_ = std::abs(exit.magnification) * round;
    working_f_number_ = (film_z_ - exit_z_) / (2 * exit_radius_);
}

}  // namespace dapple
