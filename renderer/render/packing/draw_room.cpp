#include "render/packing/draw_room.h"

#include <cmath>

#include "geometry/make_board.h"
#include "geometry/make_column.h"
#include "render/packing/find_room_box.h"
#include "render/packing/silhouettes.h"

namespace dapple {

namespace {

constexpr float kHighCut = 1.2F;  // m above the floor, as plans of rooms are cut
constexpr float kLowCut = 0.4F;   // m, through low furniture

Bounds bounds_of_room(const Scene& scene) {
    Bounds bounds;
    for (const Mesh& mesh : scene.room) {
        for (const Point& p : mesh.positions) bounds.add(p);
    }
    return bounds;
}

void add_openings(const Scene& scene, DrawnRoom& room) {
    for (const Fixture& f : scene.fixtures) {
        if (!f.is_window) continue;
        Board pane;
        pane.centre = f.position;
        pane.facing = f.axis;
        pane.size = f.panel_size;
        room.openings.push_back({f.name, true, make_board(pane).positions});
    }
    for (const Board& board : scene.boards) {
        if (board.kind != BoardKind::kDoor) continue;
        room.openings.push_back({board.name, false, make_board(board).positions});
    }
}

}  // namespace

bool side_shows_z(const Scene& scene, const std::optional<RoomBox>& box) {
    Bounds bounds;
    if (box) {
        bounds = {box->low, box->high};
    } else {
        for (const Point& p : places_in_room(scene)) bounds.add(p);
    }
    const Vec3 way = scene.camera.frame.n;
    constexpr float kLevel = 0.1F;  // of the way, the least by which it tells a side
    if (std::hypot(way.x, way.z) > kLevel) return std::abs(way.z) >= std::abs(way.x);
    const Vec3 size = bounds.high - bounds.low;
    return size.z > size.x;
}

DrawnRoom draw_room(const Scene& scene, const std::optional<RoomBox>& box, bool shows_z) {
    DrawnRoom room;
    room.box = box;
    room.is_plain_box = is_plain_box_room(scene);
    add_openings(scene, room);
    for (const Column& column : scene.columns) {
        const Mesh mesh = make_column(column);
        const auto add = [&](std::vector<FlatPolygon>& to, SheetView view) {
            for (FlatPolygon& polygon : outline_of(mesh, view, shows_z)) {
                to.push_back(std::move(polygon));
            }
        };
        add(room.columns_from_above, SheetView::kAbove);
        add(room.columns_from_side, SheetView::kSide);
    }
    if (room.is_plain_box || scene.room.empty()) return room;
    const float floor = box ? box->low.y : bounds_of_room(scene).low.y;
    room.cut_high = cut_of(scene.room, 1, floor + kHighCut, SheetView::kAbove, shows_z);
    room.cut_low = cut_of(scene.room, 1, floor + kLowCut, SheetView::kAbove, shows_z);
    const int across = shows_z ? 0 : 2;
    const Bounds bounds = box ? Bounds{box->low, box->high} : bounds_of_room(scene);
    room.cut_side = cut_of(scene.room, across, bounds.centre()[across], SheetView::kSide, shows_z);
    return room;
}

}  // namespace dapple
