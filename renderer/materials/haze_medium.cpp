#include "materials/haze_medium.h"

#include <algorithm>
#include <cmath>

namespace dapple {

// ---- Scattering --------------------------------------------------------------------------------

namespace {

constexpr float kAlmostIsotropic = 1e-3F;

}  // namespace

float eval_phase(float g, float cosine) {
    const float base = 1.0F + g * g - 2.0F * g * cosine;
    return 0.25F * kInvPiF * (1.0F - g * g) / (base * std::sqrt(base));
}

float sample_phase(float g, float u) {
    if (std::abs(g) < kAlmostIsotropic) return 1.0F - 2.0F * u;
    const float s = (1.0F - g * g) / (1.0F - g + 2.0F * g * u);
    return std::clamp((1.0F + g * g - s * s) / (2.0F * g), -1.0F, 1.0F);
}

// ---- Depth -------------------------------------------------------------------------------------

namespace {

// ∫ exp(-k t) from 0 to t.
float integral_of_fall(float k, float t) {
    const float x = k * t;
    if (std::abs(x) < 1e-3F) return t * (1.0F - 0.5F * x + x * x / 6.0F);
    return -std::expm1(-x) / k;
}

}  // namespace

float HazeWay::room_depth(float t) const {
    if (!(extinction_ > 0) || t <= from_) return 0;
    const float way = std::min(t, to_) - from_;
    return extinction_ * (fall_ == 0 ? way : integral_of_fall(fall_, way));
}

float HazeWay::depth(float t) const {
    float sum = room_depth(t);
    for (size_t i = 0; i < cloud_count_; ++i) {
        const Cloud& cloud = clouds_[i];
        if (t <= cloud.from) continue;
        // From the middle of the part, where the cubic has no large terms that cancel.
        const float x = std::min(t, cloud.to) - cloud.from;
        sum += x * (cloud.a + x * (0.5F * cloud.b + x * cloud.c / 3.0F));
    }
    return sum;
}

float HazeWay::extinction(float t) const {
    float sum = 0;
    if (t >= from_ && t <= to_) {
        sum = fall_ == 0 ? extinction_ : extinction_ * std::exp(-fall_ * (t - from_));
    }
    for (size_t i = 0; i < cloud_count_; ++i) {
        const Cloud& cloud = clouds_[i];
        if (t <= cloud.from || t >= cloud.to) continue;
        const float x = t - cloud.from;
        sum += std::max(0.0F, cloud.a + x * (cloud.b + x * cloud.c));
    }
    return sum;
}

float HazeWay::at_depth(float depth) const {
    if (cloud_count_ == 0) {
        const float way = depth / extinction_;
        if (fall_ == 0) return std::min(from_ + way, to_);
        const float x = fall_ * way;
        const float t = std::abs(x) < 1e-3F ? way * (1.0F + 0.5F * x + x * x / 3.0F)
                                            : -std::log1p(-std::min(x, 1.0F)) / fall_;
        return std::min(from_ + t, to_);
    }
    float low = first_;
    float high = last_;
    for (int i = 0; i < 28 && low < high; ++i) {
        const float middle = 0.5F * (low + high);
        (this->depth(middle) < depth ? low : high) = middle;
    }
    return 0.5F * (low + high);
}

// ---- Ways --------------------------------------------------------------------------------------

namespace {

struct Stretch {
    float from = 0, to = 0;
};

// The part of the way inside the box.
Stretch inside(const Bounds& box, const Point& origin, const Direction& direction, float length) {
    Stretch part{0, length};
    for (int i = 0; i < 3; ++i) {
        const float per = 1.0F / direction[i];
        float near = (box.low[i] - origin[i]) * per;
        float far = (box.high[i] - origin[i]) * per;
        if (near > far) std::swap(near, far);
        // Not a number: the way runs in the plane of a face, which counts as inside.
        if (near > part.from) part.from = near;
        if (far < part.to) part.to = far;
    }
    return part;
}

}  // namespace

HazeMedium::HazeMedium(const Haze& haze, const std::optional<Bounds>& room)
    : haze_(haze), room_(room) {}

void HazeMedium::add_room(const Point& origin, const Direction& direction, HazeWay& way) const {
    if (!(haze_.extinction > 0)) return;
    const Stretch part =
        room_ ? inside(*room_, origin, direction, way.length_) : Stretch{0, way.length_};
    if (!(part.from < part.to)) return;
    way.from_ = way.first_ = part.from;
    way.to_ = way.last_ = part.to;
    way.extinction_ = haze_.extinction;
    if (!(haze_.height > 0)) return;
    // Below y = 0 it is as thick as there.                                                (E51)
    const float y = origin.y + part.from * direction.y;
    way.extinction_ *= std::exp(-y / haze_.height);
    way.fall_ = direction.y / haze_.height;
}

// σ = σ0 (1 - r²), r: distance from the middle over that of the ellipsoid's surface.      (E52)
void HazeMedium::add_cloud(const HazeBox& box,
                           const Point& origin,
                           const Direction& direction,
                           HazeWay& way) const {
    const float c = std::cos(box.turn);
    const float s = std::sin(box.turn);
    const auto to_unit = [&](const Vec3& v) {
        return Vec3(c * v.x - s * v.z, v.y, s * v.x + c * v.z) / box.half;
    };
    const Vec3 o = to_unit(origin - box.centre);
    const Vec3 d = to_unit(direction);
    const float dd = glm::dot(d, d);
    const float nearest = -glm::dot(o, d) / dd;
    const Vec3 at_nearest = o + nearest * d;
    const float r2 = glm::dot(at_nearest, at_nearest);
    if (!(r2 < 1.0F)) return;
    const float half = std::sqrt((1.0F - r2) / dd);
    HazeWay::Cloud cloud;
    cloud.from = std::max(0.0F, nearest - half);
    cloud.to = std::min(way.length_, nearest + half);
    if (!(cloud.from < cloud.to)) return;
    const float x = cloud.from - nearest;
    cloud.a = box.extinction * (1.0F - r2 - dd * x * x);
    cloud.b = -2.0F * box.extinction * dd * x;
    cloud.c = -box.extinction * dd;
    way.clouds_[way.cloud_count_++] = cloud;
    way.first_ = std::min(way.first_, cloud.from);
    way.last_ = std::max(way.last_, cloud.to);
}

HazeWay HazeMedium::way(const Point& origin, const Direction& direction, float length) const {
    HazeWay way;
    way.length_ = std::min(length, HazeWay::kFarthest);
    add_room(origin, direction, way);
    for (const HazeBox& box : haze_.boxes) add_cloud(box, origin, direction, way);
    return way;
}

float HazeMedium::transmittance(const Point& origin,
                                const Direction& direction,
                                float length) const {
    if (haze_.boxes.empty() && !room_ && !(haze_.height > 0)) {
        return std::exp(-haze_.extinction * std::min(length, HazeWay::kFarthest));
    }
    return way(origin, direction, length).transmittance(length);
}

}  // namespace dapple
