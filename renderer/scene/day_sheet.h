// What is carried into the room: where everything stands, what to carry, in which order to build,
// and what a light meter must read with each fixture alone. The pages of `dapple plan` show it.
//
// World frame: x right and z down on the plan, which is seen from above. Lengths in metres.
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <optional>
#include <string>
#include <vector>

#include "scene/packing_list.h"
#include "scene/scene.h"

namespace dapple {

using FlatPolygon = std::vector<Vec2>;

// The directions from which the set is drawn.
enum class SheetView {
    kAbove,  // (x, z)
    kSide,   // (along, y), along being x or z, whichever the set is longer in
};

// A view's own coordinates of a point.
inline Vec2 in_view(const Point& p, SheetView view, bool side_shows_z) {
    if (view == SheetView::kAbove) return {p.x, p.z};
    return {side_shows_z ? p.z : p.x, p.y};
}

enum class PlaceKind { kCamera, kFixture, kGlass, kCloth, kFlag, kBounce, kFigure, kMeter };

// A point as a tape measures it.
struct TapePlace {
    Point position{0};
    std::optional<Vec2> from_walls;  // from the left and the back wall; none without a room
    std::optional<double> height;    // above the floor; none where there is no floor below
};

// The cone of a spot, as the views draw it.
struct DrawnBeam {
    Direction axis{0, 0, -1};
    double beam_angle = 0;   // rad, full angle at half intensity; 0: no cone, only the axis
    double field_angle = 0;  // rad, full angle at a tenth
    double length = 0;       // to what ends it
};

struct PlacedThing {
    PlaceKind kind = PlaceKind::kFixture;
    std::string label;  // "3", "G1"
    std::string name;
    TapePlace at;  // a fixture's lens, the middle of a glass's base, the centre of a board
    std::optional<TapePlace> aim;
    std::string how;  // "jar 300 x 150 mm, turned 20°"
    std::vector<FlatPolygon> from_above, from_side;
    std::optional<DrawnBeam> beam;
};

// The inner faces of the room's walls, floor and ceiling.
struct RoomBox {
    Point low{0}, high{0};
};

// A window or a door.
struct WallOpening {
    std::string name;
    bool is_window = true;
    std::vector<Point> corners;
};

struct DrawnRoom {
    std::optional<RoomBox> box;
    bool is_plain_box = false;  // of size_m: the box is the whole room
    // Of a model: where two level planes cut it, and where an upright plane along the side view
    // does. In pairs of ends.
    std::vector<Vec2> cut_high, cut_low, cut_side;
    std::vector<WallOpening> openings;
    std::vector<FlatPolygon> columns_from_above, columns_from_side;
};

struct DrawnCable {
    std::string fixture;
    Point top{0}, from{0}, to{0};  // the fixture, the floor below it, the socket
    double length = 0;             // the way down included
};

struct CarryItem {
    std::string kind;  // fixture stand glass cloth flag bounce clamp gel battery cable …
    std::string name;
    int count = 0;
    std::string note;  // where `users` does not say what it is for
    struct User {
        std::string thing;   // a fixture, a glass or a board
        std::string detail;  // "50 %", "3.6 m"
    };
    std::vector<User> users;
    std::optional<int> have{};  // how many the user's kit has; none: the kit does not say
};

// How many are missing from the user's kit.
inline int missing(const CarryItem& item) {
    return std::max(0, item.count - item.have.value_or(item.count));
}

struct BuildStep {
    std::string stage;  // background figure accent
    std::string fixture;
    std::string why;
};

struct MeterTarget {
    std::string meter;
    std::string fixture;  // "": all lights together
    bool is_window = false;
    double lux = 0;
    double lux_stderr = 0;
    std::optional<double> f_number;  // none where the light is not known or there is none
    std::string f_stop;              // "4 + 3/10"; "": none
    double stops_stderr = 0;
    double shown_stops = 0;  // the ± to print, where there is an f-number
};

// "1/60 s"
inline std::string shutter_words(const Camera& camera) {
    const double shutter = camera.shutter;
    const bool is_fraction = shutter < 0.5;
    const double shown = is_fraction ? std::round(1 / shutter) : shutter;
    char text[32];
    std::snprintf(text, sizeof text, is_fraction ? "1/%.0f s" : "%.3g s", shown);
    return text;
}

struct DaySheet {
    PackingList list;
    Camera camera;
    // Tangents of the angles to the right and the upper edge of the picture.
    Vec2 half_view{0.36F, 0.24F};
    bool side_shows_z = false;
    DrawnRoom room;
    std::vector<PlacedThing> places;
    std::vector<Point> sockets;
    std::vector<DrawnCable> cables;
    std::vector<CarryItem> carry;
    std::vector<BuildStep> build_order;
    std::string build_rule;                           // by which the order was found
    std::vector<std::string> meters;                  // their names
    std::optional<std::vector<MeterTarget>> targets;  // none: the meters were not read
};

}  // namespace dapple
