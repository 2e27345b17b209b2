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
      widest_(1.0F - std::cos(emitter.widest_angle())),
      cells_(static_cast<size_t>(kAcross) * kAcross) {
    const float start = kOffLamp + (emitter.is_round() ? emitter.radius() : 0.0F);
    for (int y = 0; y < kAcross; ++y) {
        for (int x = 0; x < kAcross; ++x) {
            const Vec2 at((static_cast<float>(2 * x + 1) / kAcross) - 1,
                          (static_cast<float>(2 * y + 1) / kAcross) - 1);
            const Direction direction = direction_at(at);
            const Ray ray{emitter.position() + start * direction, direction, 0.0F, kInfinity};
            cells_[cell_of(at)] = {emitter.candela(direction),
                                   start + free_way(world, ray, fixture)};
        }
    }
}

Direction LampView::direction_at(const Vec2& at) const {
    const float r = std::max(glm::length(at), 1e-6F);
    const float from_pole = square(std::min(1.0F, r)) * widest_;  // 1 - cosine
    const float sine = std::sqrt(from_pole * (2.0F - from_pole));
    return frame_.to_world(Vec3(sine / r * at, 1.0F - from_pole));
}

size_t LampView::cell_of(const Vec2& at) {
    const auto place = [](float v) {
        return static_cast<size_t>(
            std::clamp(static_cast<int>(0.5F * (v + 1) * kAcross), 0, kAcross - 1));
    };
    return place(at.y) * kAcross + place(at.x);
}

// (u, v) = (x, y)/sqrt((1 + z)(1 - cos w)), w: the widest angle                            (E98)
const LampView::Light& LampView::towards(const Direction& direction) const {
    const Vec3 local = frame_.to_local(direction);
    const float per_sine = 1.0F / std::sqrt(std::max(1e-6F, (1.0F + local.z) * widest_));
    return cells_[cell_of(per_sine * Vec2(local))];
}

}  // namespace dapple
