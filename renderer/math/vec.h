// GLM's vectors, under names that say what a vector is. World frame: right-handed, metres,
// y up. Local frames have z along the normal or the axis.
#pragma once

#include <cmath>
#include <glm/glm.hpp>

#include "base/units.h"

namespace dapple {

using Vec2 = glm::vec2;
using Vec3 = glm::vec3;
using Mat3 = glm::mat3;
using Point = glm::vec3;      // a place, m
using Direction = glm::vec3;  // unit length
using Normal = glm::vec3;     // unit length, perpendicular to a surface
using Rgb = glm::vec3;        // linear Rec.709
using Xyz = glm::dvec3;       // CIE 1931
using DVec2 = glm::dvec2;
using DMat3 = glm::dmat3;

struct Ray {
    Point origin{0};
    Direction direction{0, 0, 1};
    float t_min = 0;
    float t_max = kInfinity;
};

// An orthonormal frame around a unit vector n (local z). Duff et al. 2017, without branches.
struct Frame {
    Direction s{1, 0, 0}, t{0, 1, 0}, n{0, 0, 1};

    Frame() = default;
    explicit Frame(const Direction& axis) : n(axis) {
        const float sign = std::copysign(1.0F, n.z);
        const float a = -1.0F / (sign + n.z);
        const float b = n.x * n.y * a;
        s = Direction(1.0F + sign * n.x * n.x * a, sign * b, -sign * n.x);
        t = Direction(b, sign + n.y * n.y * a, -n.y);
    }
    Frame(const Direction& s_axis, const Direction& t_axis, const Direction& n_axis)
        : s(s_axis), t(t_axis), n(n_axis) {}

    Vec3 to_local(const Vec3& v) const {
        return Vec3(glm::dot(v, s), glm::dot(v, t), glm::dot(v, n));
    }
    Vec3 to_world(const Vec3& v) const { return s * v.x + t * v.y + n * v.z; }
};

// A frame that looks along `forward`, with t as near to `up` as it can be (s to the right of
// someone who looks along `forward`).
inline Frame looking_frame(const Direction& forward, const Direction& up = Direction(0, 1, 0)) {
    Vec3 right = glm::cross(forward, up);
    if (glm::dot(right, right) < 1e-8F) right = glm::cross(forward, Direction(0, 0, -1));
    if (glm::dot(right, right) < 1e-8F) right = glm::cross(forward, Direction(1, 0, 0));
    right = glm::normalize(right);
    return {right, glm::cross(right, forward), forward};
}

struct Bounds {
    Point low{kInfinity};
    Point high{-kInfinity};

    void add(const Point& p) {
        low = glm::min(low, p);
        high = glm::max(high, p);
    }
    void add(const Bounds& other) {
        low = glm::min(low, other.low);
        high = glm::max(high, other.high);
    }
    bool empty() const { return low.x > high.x; }
    Point centre() const { return 0.5F * (low + high); }
    float diagonal() const { return empty() ? 0.0F : glm::length(high - low); }
};

inline float square(float x) {
    return x * x;
}

inline bool is_finite(const Vec3& v) {
    return std::isfinite(v.x) && std::isfinite(v.y) && std::isfinite(v.z);
}

}  // namespace dapple
