#include "film/seen_points.h"

#include <algorithm>

namespace dapple {

namespace {

constexpr float kMostTurn = 0.2F;       // 1 - cos of 23°
constexpr float kMostSlope = 0.12F;     // off the tangent plane, over the distance
constexpr float kMostOffPixels = 0.7F;  // off the tangent plane, in widths of a pixel

}  // namespace

float likeness(const SeenPoint& a, const SeenPoint& b) {
    if (a.surface != b.surface || a.surface < 0) return 0;
    const float turn = 1 - glm::dot(a.normal, b.normal);
    const float same_normal = std::max(0.0F, 1 - turn / kMostTurn);
    const Vec3 between = b.position - a.position;
    const float off =
        std::max(std::abs(glm::dot(between, a.normal)), std::abs(glm::dot(between, b.normal)));
    const float most =
        kMostSlope * glm::length(between) + kMostOffPixels * std::min(a.footprint_m, b.footprint_m);
    const float same_plane = 1 - off / std::max(most, 1e-9F);
    return same_normal * std::clamp(2 * same_plane, 0.0F, 1.0F);
}

float likeness(const SeenPoint& a, const SeenPoint& b, float apart_px) {
    const float blur = std::min(a.blur_px, b.blur_px);
    const float soft = blur > 0 ? std::clamp(2 - 8 * apart_px / blur, 0.0F, 1.0F) : 0.0F;
    return soft >= 1 ? 1.0F : std::max(soft, likeness(a, b));
}

}  // namespace dapple
