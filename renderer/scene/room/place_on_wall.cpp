#include "scene/room/place_on_wall.h"

#include "scene/checks.h"

namespace dapple {

namespace {

struct Wall {
    Direction inward{0, 0, 1};
    Direction along{1, 0, 0};
};

const std::vector<std::pair<std::string, Wall>> kWalls{
    {"wall_left", {Direction(1, 0, 0), Direction(0, 0, 1)}},
    {"wall_right", {Direction(-1, 0, 0), Direction(0, 0, 1)}},
    {"wall_back", {Direction(0, 0, 1), Direction(1, 0, 0)}},
    {"wall_front", {Direction(0, 0, -1), Direction(1, 0, 0)}}};

constexpr double kMaxOpening = 100;  // m

void check_inside(const WallDescription& on_wall,
                  const Vec2& centre,
                  const Vec2& size,
                  const Vec2& wall,
                  Problems& problems) {
    constexpr float kRounding = 1e-5F;  // m
    const Vec2 low = centre - 0.5F * size + Vec2(0.5F * wall.x, 0);
    const Vec2 high = low + size;
    if (glm::all(glm::greaterThanEqual(low, Vec2(-kRounding))) &&
        glm::all(glm::lessThanEqual(high, wall + kRounding))) {
        return;
    }
    problems.add(on_wall.centre_m.place,
                 on_wall.centre_m.key,
                 "with size_m reaches beyond " + on_wall.wall.value + ", " + number_text(wall.x) +
                     " m long (from " + number_text(-0.5 * wall.x) + " to " +
                     number_text(0.5 * wall.x) + ") and " + number_text(wall.y) + " m high");
}

}  // namespace

Rectangle place_on_wall(const WallDescription& on_wall,
                        const SetDescription& set,
                        float off,
                        Problems& problems) {
    Rectangle made;
    made.size = Vec2(1);
    const Field<Triple>& room = set.room.size_m;
    if (!room.written) {
        problems.add(on_wall.wall.place,
                     on_wall.wall.key,
                     "works only in a room that size_m gives, not in a model");
        return made;
    }
    const Wall wall = checked_word(on_wall.wall, kWalls, Wall{}, problems);
    const bool placed =
        check_written(on_wall.centre_m, "give [along the wall, up] in metres", problems);
    const bool sized = check_written(on_wall.size_m, "give [width, height] in metres", problems);
    made.size = checked_size(on_wall.size_m, made.size, kMaxOpening, problems);
    made.facing = wall.inward;
    if (!placed || !sized || !on_wall.wall.given || !room.given) return made;

    const Vec2 centre(on_wall.centre_m.value[0], on_wall.centre_m.value[1]);
    const Vec3 extent(room.value[0], room.value[2], room.value[1]);
    const float length = glm::dot(glm::abs(wall.along), extent);
    check_inside(on_wall, centre, made.size, Vec2(length, extent.y), problems);
    const float to_wall = 0.5F * glm::dot(glm::abs(wall.inward), extent);
    made.centre = centre.x * wall.along + Vec3(0, centre.y, 0) - (to_wall - off) * wall.inward;
    return made;
}

}  // namespace dapple
