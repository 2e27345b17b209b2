#include "render/packing/make_day_sheet.h"

#include "render/packing/draw_room.h"
#include "render/packing/find_build_order.h"
#include "render/packing/find_cables.h"
#include "render/packing/find_places.h"
#include "render/packing/find_room_box.h"
#include "render/packing/list_carry.h"
#include "render/packing/make_packing_list.h"
#include "transport/picture_edges.h"

namespace dapple {

DaySheet make_day_sheet(const Scene& scene, const World& world, const std::vector<Gear>& gear) {
    DaySheet sheet;
    sheet.list = make_packing_list(scene, world);
    sheet.camera = scene.camera;
    sheet.half_view = find_picture_edges(scene.camera).middles;
    const std::optional<RoomBox> box = find_room_box(scene, world);
    sheet.side_shows_z = side_shows_z(scene, box);
    sheet.room = draw_room(scene, box, sheet.side_shows_z);
    sheet.places = find_places(scene, sheet);
    const std::vector<CableRun> cables = find_cables(scene, world);
    for (const CableRun& cable : cables) {
        const Fixture& f = scene.fixtures[static_cast<size_t>(cable.fixture)];
        sheet.cables.push_back({f.name, f.position, cable.from, cable.to, cable.length});
    }
    for (const Vec2& socket : scene.power.mains) {
        const Point above(socket.x, scene.camera.position.y, socket.y);
        sheet.sockets.emplace_back(
            socket.x, floor_under(scene, box, above).value_or(0.0F), socket.y);
    }
    sheet.carry = list_carry(scene, sheet, cables, gear);
    sheet.build_order = find_build_order(scene, sheet);
    sheet.build_rule = kBuildRule;
    for (const Meter& meter : scene.meters) sheet.meters.push_back(meter.name);
    return sheet;
}

}  // namespace dapple
