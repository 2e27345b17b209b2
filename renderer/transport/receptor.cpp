#include "transport/receptor.h"

#include <cmath>

#include "math/warps.h"

namespace dapple {

Receptor::Receptor(const Meter& meter)
    : kind_(meter.receptor),
      centre_(meter.position),
      frame_(looking_frame(meter.facing)),
      radius_(0.5F * meter.diameter),
      half_(0.5F * meter.size) {
    const bool is_rectangle = half_.x > 0 && half_.y > 0;
    const float front = is_rectangle ? 4 * half_.x * half_.y : kPiF * square(radius_);
    const float per_front = kind_ == ReceptorKind::kDome ? 2.0F : 1.0F;  // area / front
    is_point_ = !(front > 0);
    lux_per_walk_ = per_front * kPiF;
    if (is_point_) return;
    pdf_area_ = 1 / (per_front * front);
    lux_per_lumen_ = 1 / front;
}

ReceptorPoint Receptor::sample_point(float u, float v) const {
    if (kind_ == ReceptorKind::kDome) {
        // Equal steps along the axis have equal areas (Archimedes).
        const float sin_theta = std::sqrt(std::max(0.0F, 1.0F - u * u));
        const Normal n = frame_.to_world(direction_from_angles(u, sin_theta, 2.0F * kPiF * v));
        return {centre_ + radius_ * n, n};
    }
    Vec2 d(0.0F);
    if (half_.x > 0) {
        d = half_ * Vec2(2 * u - 1, 2 * v - 1);
    } else if (radius_ > 0) {
        d = radius_ * sample_disk(u, v);
    }
    return {centre_ + d.x * frame_.s + d.y * frame_.t, frame_.n};
}

Direction Receptor::sample_direction(const ReceptorPoint& at, float u, float v) {
    return Frame(at.normal).to_world(sample_cosine_hemisphere(u, v));
}

bool Receptor::crossed_by(const Ray& ray, float t_max, Crossing& crossing) const {
    if (is_point_) return false;
    return kind_ == ReceptorKind::kDome ? crossed_dome(ray, t_max, crossing)
                                        : crossed_flat(ray, t_max, crossing);
}

bool Receptor::crossed_flat(const Ray& ray, float t_max, Crossing& crossing) const {
    const float cos_front = -glm::dot(ray.direction, frame_.n);
    if (!(cos_front > 0)) return false;
    const float t = glm::dot(ray.origin - centre_, frame_.n) / cos_front;
    if (!(t > 0 && t < t_max)) return false;
    const Point position = ray.origin + t * ray.direction;
    const Vec3 local = frame_.to_local(position - centre_);
    const bool inside = half_.x > 0 ? std::abs(local.x) <= half_.x && std::abs(local.y) <= half_.y
                                    : local.x * local.x + local.y * local.y <= square(radius_);
    if (!inside) return false;
    crossing = {{position, frame_.n}, t, cos_front};
    return true;
}

bool Receptor::crossed_dome(const Ray& ray, float t_max, Crossing& crossing) const {
    // The ray enters the sphere from outside at the first of its two intersections. They are
    // computed from the point of the ray nearest to the centre, where the rounding error is least.
    const float nearest = glm::dot(centre_ - ray.origin, ray.direction);
    const Vec3 off = ray.origin + nearest * ray.direction - centre_;
    const float half_chord2 = square(radius_) - glm::dot(off, off);
    if (!(half_chord2 > 0)) return false;
    const float half_chord = std::sqrt(half_chord2);
    const float t = nearest - half_chord;
    if (!(t > 0 && t < t_max)) return false;
    const Normal n = glm::normalize(off - half_chord * ray.direction);
    if (glm::dot(n, frame_.n) < 0) return false;
    crossing = {{centre_ + radius_ * n, n}, t, half_chord / radius_};
    return true;
}

}  // namespace dapple
