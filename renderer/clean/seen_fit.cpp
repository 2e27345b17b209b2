#include "clean/seen_fit.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr int32_t kBehindGlass = 0x40000000;  // surfaces from here on (find_seen_points.h)
constexpr float kWhite = 0.99F;               // reflectance; what is brighter is glass
constexpr float kMostOff = 0.1F;              // off a plane, over the distance

}  // namespace

bool is_behind_glass(const SeenPoint& seen) {
    return seen.surface >= kBehindGlass;
}
bool is_lamp_face(const SeenPoint& seen) {
    return seen.surface < 0 && seen.footprint_m > 0;
}
bool is_plain_surface(const SeenPoint& seen) {
    return seen.surface >= 0 && !is_behind_glass(seen) &&
           std::min({seen.albedo.r, seen.albedo.g, seen.albedo.b}) < kWhite;
}

float fit_of(const SeenPoint& a, const SeenPoint& b) {
    if (a.surface >= 0) return likeness(a, b);
    return b.surface < 0 && is_lamp_face(a) == is_lamp_face(b) ? 1.0F : 0.0F;
}

bool is_on_one_plane(const SeenPoint& a, const SeenPoint& b) {
    const Vec3 between = b.position - a.position;
    const float off =
        std::min(std::abs(glm::dot(between, a.normal)), std::abs(glm::dot(between, b.normal)));
    return off < kMostOff * glm::length(between);
}

float light_in_common(const SeenPoint& a, const SeenPoint& b) {
    if (!is_plain_surface(b)) return 0;
    const float facing = std::max(0.0F, glm::dot(a.normal, b.normal));
    const Vec3 between = b.position - a.position;
    return facing * facing * square(b.footprint_m) /
           (square(b.footprint_m) + glm::dot(between, between));
}

}  // namespace dapple
