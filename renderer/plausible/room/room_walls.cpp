#include "plausible/room/room_walls.h"

#include "math/sequences.h"
#include "plausible/beams/sight_lines.h"

namespace dapple {

namespace {

constexpr uint32_t kPlacesInside = 64;
constexpr float kAtWall = 0.02F;    // m, outside the bounds that still counts as inside
constexpr float kOffBounds = 0.1F;  // of the size, between the bounds and places inside

bool wall_between(const StagedSet& set, const Point& from, const Point& to) {
    const Counts counts = [&](const Thing& thing, const SurfacePoint& at) {
        return is_of_room(set.scene, thing) && blocks_light(set.scene, at);
    };
    const float length = glm::length(to - from);
    Thing thing;
    SurfacePoint at;
    const Ray ray{from, (to - from) / length, 0.0F, length};
    return first_counting(set.world, ray, counts, thing, at);
}

}  // namespace

RoomWalls::RoomWalls(const StagedSet& set) : set_(set), is_room_(!set.scene.room.empty()) {
    if (const std::optional<Bounds> box = box_of_room(set)) {
        bounds_ = *box;
        return;
    }
    for (const Mesh& mesh : set.scene.room) {
        for (const Point& p : mesh.positions) bounds_.add(p);
    }
}

bool RoomWalls::is_within_bounds(const Point& p) const {
    return !is_room_ || (glm::all(glm::greaterThanEqual(p, bounds_.low - kAtWall)) &&
                         glm::all(glm::lessThanEqual(p, bounds_.high + kAtWall)));
}

bool RoomWalls::shut_out(const Point& p) const {
    if (is_within_bounds(p)) return false;
    const Vec3 size = bounds_.high - bounds_.low;
    for (uint32_t i = 0; i < kPlacesInside; ++i) {
        const auto u = sobol_owen_4d(i, 7);
        const Vec3 share = kOffBounds + (1 - 2 * kOffBounds) * Vec3(u[0], u[1], u[2]);
        if (!wall_between(set_, p, bounds_.low + share * size)) return false;
    }
    return true;
}

bool RoomWalls::may_move(const Point& from, const Point& to) const {
    return is_within_bounds(to) || !is_within_bounds(from);
}

}  // namespace dapple
