#include "render/packing/find_cables.h"

#include <algorithm>

#include "geometry/make_attachments.h"
#include "render/packing/find_room_box.h"

namespace dapple {

namespace {

CableRun cable_of(const Scene& scene, const std::optional<RoomBox>& box, int index) {
    const Fixture& f = scene.fixtures[static_cast<size_t>(index)];
    const Point top = f.stand ? stand_top(f) : f.position;
    const float floor = floor_under(scene, box, f.position).value_or(std::min(f.position.y, 0.0F));
    const Vec2 down(top.x, top.z);
    const Vec2 socket = *std::min_element(
        scene.power.mains.begin(), scene.power.mains.end(), [&](const Vec2& a, const Vec2& b) {
            return glm::distance(a, down) < glm::distance(b, down);
        });
    CableRun run;
    run.fixture = index;
    run.from = Point(top.x, floor, top.z);
    run.to = Point(socket.x, floor, socket.y);
    run.length = static_cast<double>(top.y - floor) + glm::distance(down, socket);
    return run;
}

}  // namespace

std::vector<CableRun> find_cables(const Scene& scene, const World& world) {
    std::vector<CableRun> cables;
    if (scene.power.mains.empty()) return cables;
    const std::optional<RoomBox> box = find_room_box(scene, world);
    for (size_t i = 0; i < scene.fixtures.size(); ++i) {
        const Fixture& f = scene.fixtures[i];
        if (f.is_window || f.supply != Supply::kMains) continue;
        cables.push_back(cable_of(scene, box, static_cast<int>(i)));
    }
    return cables;
}

}  // namespace dapple
