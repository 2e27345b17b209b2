#include "plausible/bodies/way_out.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace dapple {

namespace {

constexpr std::array kDistances = {0.01F,
                                   0.02F,
                                   0.03F,
                                   0.05F,
                                   0.07F,
                                   0.1F,
                                   0.14F,
                                   0.2F,
                                   0.28F,
                                   0.4F,
                                   0.55F,
                                   0.75F,
                                   1.0F,
                                   1.4F,
                                   2.0F};  // m
constexpr float kStepOut = 5e-3F;          // m, to which a way out is found
constexpr float kExactStep = 1e-4F;        // m
constexpr float kInRoom = 1e-3F;           // m, against rounding

// Whether the room is not between the body and all places where something else of the set is.
bool is_on_our_side(const WayOutSearch& search, const Point& body) {
    if (search.places.empty()) return true;
    const Counts room = [](const Thing& thing, const SurfacePoint&) {
        return thing.kind == ThingKind::kRoom;
    };
    return std::any_of(search.places.begin(), search.places.end(), [&](const Point& place) {
        const float length = glm::length(place - body);
        if (!(length > 0)) return true;
        Thing thing;
        SurfacePoint at;
        const Ray ray{body, (place - body) / length, 0.0F, length};
        return !first_counting(search.world, ray, room, thing, at);
    });
}

bool is_clear(const WayOutSearch& search, const Vec3& by) {
    if (search.room) {
        const Bounds bounds = bounds_of(search.cage);
        if (glm::any(glm::lessThan(bounds.low + by, search.room->low - kInRoom))) return false;
        if (glm::any(glm::greaterThan(bounds.high + by, search.room->high + kInRoom))) return false;
    }
    if (crosses(search.world, search.cage, by, search.counts)) return false;
    SurfacePoint inner;
    inner.position = search.cage.front().a + by;
    for (const Thing& thing : things_around(search.world, inner.position)) {
        if (search.counts(thing, inner)) return false;
    }
    return is_on_our_side(search, inner.position);
}

// The smallest distance between `blocked` and `clear` along the way that is clear, to `step`.
float refined(const WayOutSearch& search,
              const Direction& way,
              float blocked,
              float clear,
              float step = kStepOut) {
    while (clear - blocked > step) {
        const float middle = 0.5F * (clear + blocked);
        (is_clear(search, middle * way) ? clear : blocked) = middle;
    }
    return clear;
}

}  // namespace

std::vector<Direction> ways_out(const Camera& camera, bool also_down) {
    std::vector<Direction> ways;
    const Vec3& s = camera.frame.s;
    const float of_camera = std::atan2(s.z, s.x);
    const auto add = [&](float angle) { ways.emplace_back(std::cos(angle), 0, std::sin(angle)); };
    for (int i = 0; i < 8; ++i) {
        const float turn = 0.25F * kPiF * static_cast<float>(i);
        add(of_camera + turn);
        add(turn);
    }
    ways.emplace_back(0, 1, 0);
    if (also_down) ways.emplace_back(0, -1, 0);
    return ways;
}

std::optional<WayOut> find_way_out(const WayOutSearch& search, float touching) {
    if (search.cage.empty()) return std::nullopt;
    for (const Direction& way : search.ways) {
        if (is_clear(search, touching * way)) return WayOut{way, touching};
    }
    float blocked = touching;
    for (const float distance : kDistances) {
        if (distance <= touching) continue;
        std::optional<WayOut> best;
        for (const Direction& way : search.ways) {
            if (!is_clear(search, distance * way)) continue;
            const float least = refined(search, way, blocked, distance);
            if (!best || least < best->distance) best = WayOut{way, least};
        }
        if (best) return best;
        blocked = distance;
    }
    return std::nullopt;
}

float exact_distance(const WayOutSearch& search, const WayOut& out) {
    return refined(search, out.way, 0, out.distance, kExactStep);
}

}  // namespace dapple
