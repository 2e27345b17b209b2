#include "render/packing/find_room_box.h"

#include <algorithm>

#include "geometry/make_attachments.h"
#include "geometry/surfaces_past_fixtures.h"

namespace dapple {

namespace {

constexpr float kFloorBoards = 0.05F;  // m
constexpr float kBelowBox = 0.01F;     // m, against rounding

// The coordinate along `axis` of the farthest surface that rays to one side meet.
std::optional<float> farthest(const Scene& scene,
                              const World& world,
                              const std::vector<Point>& places,
                              int axis,
                              float side) {
    std::optional<float> found;
    Vec3 direction(0);
    direction[axis] = side;
    for (const Point& place : places) {
        SurfacePoint at;
        if (!closest_past_fixtures(scene, world, {place, direction, 0, kInfinity}, at)) continue;
        const float where = at.position[axis];
        if (!found || where * side > *found * side) found = where;
    }
    return found;
}

}  // namespace

// Such a room has these surfaces and nothing else.
bool is_plain_box_room(const Scene& scene) {
    return scene.room.size() == 1 && scene.room[0].triangles.size() == 12 &&
           scene.materials.size() >= 6 && scene.materials[0].name == "floor" &&
           scene.materials[5].name == "wall_front";
}

std::vector<Point> places_in_room(const Scene& scene) {
    std::vector<Point> places = {scene.camera.position};
    for (const Fixture& f : scene.fixtures) {
        if (!f.is_window) places.push_back(f.position);
    }
    for (const Meter& meter : scene.meters) places.push_back(meter.position);
    for (const StandIn& figure : scene.stand_ins) {
        places.push_back(figure.position + Vec3(0, 1.1F * figure.height, 0));
    }
    return places;
}

std::optional<RoomBox> find_room_box(const Scene& scene, const World& world) {
    if (scene.room.empty()) return std::nullopt;
    if (is_plain_box_room(scene)) {
        Bounds bounds;
        for (const Point& p : scene.room[0].positions) bounds.add(p);
        return RoomBox{bounds.low, bounds.high};
    }
    const std::vector<Point> places = places_in_room(scene);
    RoomBox box;
    for (int axis = 0; axis < 3; ++axis) {
        const std::optional<float> low = farthest(scene, world, places, axis, -1);
        const std::optional<float> high = farthest(scene, world, places, axis, 1);
        if (!low || !high) return std::nullopt;
        box.low[axis] = *low;
        box.high[axis] = *high;
    }
    return box;
}

std::optional<float> floor_under(const Scene& scene,
                                 const std::optional<RoomBox>& box,
                                 const Point& p) {
    std::vector<float> heights = surfaces_below(scene.room, p);
    std::sort(heights.begin(), heights.end());
    const float lowest = box ? box->low.y - kBelowBox : -kInfinity;
    auto floor = std::lower_bound(heights.begin(), heights.end(), lowest);
    if (floor == heights.end()) return std::nullopt;
    while (std::next(floor) != heights.end() && *std::next(floor) - *floor <= kFloorBoards) ++floor;
    return *floor;
}

}  // namespace dapple
