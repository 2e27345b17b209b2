// Lenses for the tests.
#pragma once

#include "lenses/real_lens.h"

namespace dapple::lens_samples {

// The published double Gauss at its own size.
inline constexpr double kNormalFocal = 50.358;  // mm
inline constexpr double kDegree = 3.14159265358979323846 / 180;

inline double squared(double x) {
    return x * x;
}

inline Camera camera_with(
    const std::string& name, double focal_mm, float f_number, LensCoating coating, int blades = 0) {
    Camera camera;
    camera.focal_length = static_cast<float>(1e-3 * focal_mm);
    camera.f_number = f_number;
    camera.lens.name = name;
    camera.lens.coating = coating;
    camera.lens.blades = blades;
    return camera;
}

// A lamp at an angle from the axis and a distance from the first vertex, m; in mm.
inline LensVec lamp_at(double angle_deg, double metres) {
    const double angle = angle_deg * 3.14159265358979323846 / 180;
    return {1e3 * metres * std::sin(angle), 0, -1e3 * metres * std::cos(angle)};
}

}  // namespace dapple::lens_samples
