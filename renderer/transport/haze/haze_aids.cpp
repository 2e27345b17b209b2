#include "transport/haze/haze_aids.h"

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

constexpr int kMostLookedThrough = 8;  // see-through surfaces
constexpr float kOffLamp = 1e-3F;      // m, where a view starts before the lamp

// The distance to what stops light, m.
float free_way(const World& world, Ray ray, int fixture) {
    float way = 0;
    for (int i = 0; i < kMostLookedThrough; ++i) {
        Hit hit;
        if (!world.closest(ray, hit)) return kInfinity;
        way += hit.t;
        const SurfacePoint at = world.surface_at(ray, hit);
        Hit through;
        Ray up_to = ray;
        up_to.t_max = hit.t * 1.0001F + 1e-6F;
        const bool see_through = world.closest_see_through(up_to, through);
        if (!see_through && at.lamp != fixture) return way;
        ray.origin = offset_origin(at, ray.direction);
    }
    return way;
}

}  // namespace

LampView::LampView(const World& world, const Emitter& emitter, int fixture)
    : frame_(emitter.axis()),
      widest_(emitter.widest_angle()),
      free_(static_cast<size_t>(kAcross) * kAcross, 0.0F) {
    for (int y = 0; y < kAcross; ++y) {
        for (int x = 0; x < kAcross; ++x) {
            const Vec2 at((static_cast<float>(2 * x + 1) / kAcross) - 1,
                          (static_cast<float>(2 * y + 1) / kAcross) - 1);
            const float r = glm::length(at);
            const float angle = std::min(1.0F, r) * widest_;
            const float per_r = r > 0 ? std::sin(angle) / r : 0.0F;
            const Direction direction =
                frame_.to_world(Vec3(per_r * at.x, per_r * at.y, std::cos(angle)));
            const float start = kOffLamp + (emitter.is_round() ? emitter.radius() : 0.0F);
            const Ray ray{emitter.position() + start * direction, direction, 0.0F, kInfinity};
            free_[cell_of(at)] = start + free_way(world, ray, fixture);
        }
    }
}

size_t LampView::cell_of(const Vec2& at) const {
    const auto place = [](float v) {
        return static_cast<size_t>(
            std::clamp(static_cast<int>(0.5F * (v + 1) * kAcross), 0, kAcross - 1));
    };
    return place(at.y) * kAcross + place(at.x);
}

bool LampView::reaches(const Direction& direction, float distance) const {
    const Vec3 local = frame_.to_local(direction);
    const float sine = std::sqrt(local.x * local.x + local.y * local.y);
    const float r = std::atan2(sine, local.z) / widest_;
    const float per_sine = sine > 0 ? std::min(1.0F, r) / sine : 0.0F;
    return distance < free_[cell_of(Vec2(per_sine * local.x, per_sine * local.y))];
}

}  // namespace dapple
