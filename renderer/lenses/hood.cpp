#include "lenses/hood.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"

namespace dapple {

namespace {

double overlap_of_discs(double a, double b, double d) {
    if (d >= a + b) return 0;
    if (d <= std::abs(a - b)) return kPi * std::min(a, b) * std::min(a, b);
    const double in_a = std::clamp((d * d + a * a - b * b) / (2 * d * a), -1.0, 1.0);
    const double in_b = std::clamp((d * d + b * b - a * a) / (2 * d * b), -1.0, 1.0);
    const double kite = (-d + a + b) * (d + a - b) * (d - a + b) * (d + a + b);
    return a * a * std::acos(in_a) + b * b * std::acos(in_b) - 0.5 * std::sqrt(std::max(0.0, kite));
}

}  // namespace

double Hood::lit_share(double angle) const {
    if (angle >= kPi / 2) return 0;
    if (!(length > 0)) return 1;
    return overlap_of_discs(front_radius, rim_radius, length * std::tan(angle)) /
           (kPi * front_radius * front_radius);
}

bool Hood::lets_in(const LensRay& ray) const {
    if (!(length > 0)) return true;
    const double t = length / ray.direction.z;
    const double x = ray.position.x - t * ray.direction.x;
    const double y = ray.position.y - t * ray.direction.y;
    return x * x + y * y <= rim_radius * rim_radius;
}

double half_diagonal_angle(const Camera& camera) {
    return std::atan(0.5 * static_cast<double>(glm::length(camera.sensor)) /
                     static_cast<double>(camera.focal_length));
}

Hood make_hood(const Camera& camera, const RealLens& lens, double length) {
    const double rim = lens.entrance_radius() +
                       (lens.entrance_depth() + length) * std::tan(half_diagonal_angle(camera));
    return {length, rim, lens.front_radius()};
}

std::optional<double> hood_against(const Camera& camera,
                                   const RealLens& lens,
                                   double angle,
                                   double longest) {
    const double corner = std::tan(half_diagonal_angle(camera));
    if (angle >= kPi / 2) return 0.0;
    const double steeper = std::tan(angle) - corner;
    if (!(steeper > 0)) return std::nullopt;
    const double length =
        (lens.front_radius() + lens.entrance_radius() + lens.entrance_depth() * corner) / steeper;
    if (length > longest) return std::nullopt;
    return length;
}

double dark_angle(const Hood& hood) {
    if (!(hood.length > 0)) return kPi / 2;
    return std::atan((hood.front_radius + hood.rim_radius) / hood.length);
}

}  // namespace dapple
