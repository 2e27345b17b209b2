// The day sheet of a set: distances, what to carry, cables and the order of building.
#include <doctest/doctest.h>

#include <algorithm>

#include "render/packing/find_room_box.h"
#include "render/packing/make_day_sheet.h"
#include "render/packing/silhouettes.h"
#include "render/test_scenes.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// A room of 4 × 3 × 5 m with its floor at -1.5 m, a figure and three lamps.
Scene staged() {
    Scene scene = room_without_glass();
    scene.fixtures.clear();
    const auto add = [&](const char* name, const Point& at, const Point& aim) -> Fixture& {
        Fixture f = fixture_of(FixtureForm::kSpot, at, aim, 500);
        f.name = name;
        f.aim = aim;
        f.supply = Supply::kBattery;
        scene.fixtures.push_back(f);
        return scene.fixtures.back();
    };
    add("key", Point(-1, 0.4F, 1), Point(0.2F, 0, -0.5F)).supply = Supply::kMains;
    add("rim", Point(0.5F, 0.8F, -2), Point(0.2F, 0, -0.5F));
    add("wall", Point(1.5F, -0.5F, 0), Point(1.5F, 0, -2.5F));
    scene.fixtures[0].gel.shift_mired = 120;
    StandIn figure;
    figure.name = "figure";
    figure.position = Point(0.2F, -1.5F, -0.5F);
    scene.stand_ins = {figure};
    const MaterialId glass = add_material(scene, clear_glass("ball", GlassType::kSodaLime));
    scene.glasses = {ball_at(Point(-0.8F, 0.2F, 0.7F), 0.1F, glass),
                     ball_at(Point(1, -1.5F, 1), 0.1F, glass)};
    scene.glasses[1].name = "ball on the floor";
    Board cloth;
    cloth.name = "cloth";
    cloth.kind = BoardKind::kDiffuser;
    cloth.cloth = "silk";
    cloth.centre = scene.fixtures[1].position + 0.02F * scene.fixtures[1].axis;
    cloth.facing = scene.fixtures[1].axis;
    cloth.clipped_to = "rim";
    cloth.material = add_material(scene, sheet("cloth", 0.3F, 0.5F, 0.1F));
    scene.boards = {cloth};
    Meter meter;
    meter.name = "face";
    meter.position = Point(0.2F, 0, -0.3F);
    meter.aim = Point(-1, 0.4F, 1);
    scene.meters = {meter};
    return scene;
}

const PlacedThing& place_of(const DaySheet& sheet, const std::string& name) {
    const auto found = std::find_if(sheet.places.begin(),
                                    sheet.places.end(),
                                    [&](const PlacedThing& p) { return p.name == name; });
    REQUIRE(found != sheet.places.end());
    return *found;
}

int carried(const DaySheet& sheet, const std::string& kind) {
    int count = 0;
    for (const CarryItem& item : sheet.carry) count += item.kind == kind ? item.count : 0;
    return count;
}

Gear cable_of(float length, std::optional<int> count) {
    Gear gear;
    gear.kind = "cable";
    gear.name = "cable " + std::to_string(length);
    gear.count = count;
    gear.length = length;
    return gear;
}

Gear stand_of(const std::string& name, float reach, std::optional<int> count) {
    Gear gear;
    gear.kind = "stand";
    gear.name = name;
    gear.count = count;
    gear.reach = reach;
    return gear;
}

}  // namespace

TEST_CASE("distances are from the left and the back wall, heights from the floor") {
    const Scene scene = staged();
    const DaySheet sheet = make_day_sheet(scene, World(scene), {});
    const PlacedThing& key = place_of(sheet, "key");
    REQUIRE(key.at.from_walls.has_value());
    CHECK(key.at.from_walls->x == doctest::Approx(1));    // -1 m in a room from -2 m
    CHECK(key.at.from_walls->y == doctest::Approx(3.5));  // 1 m in a room from -2.5 m
    CHECK(*key.at.height == doctest::Approx(1.9));
    REQUIRE(key.aim.has_value());
    CHECK(key.aim->from_walls->x == doctest::Approx(2.2));
    CHECK(*key.aim->height == doctest::Approx(1.5));
    CHECK(*place_of(sheet, "figure").at.height == doctest::Approx(0));
    CHECK(place_of(sheet, "face").at.from_walls->y == doctest::Approx(2.2));
    CHECK_FALSE(place_of(sheet, "cloth").aim.has_value());
    CHECK(sheet.side_shows_z);  // the camera looks along z
}

TEST_CASE("the walls of a model are the inner faces, also behind furniture") {
    Scene scene = staged();
    const MaterialId wood = add_material(scene, lambertian("wood", 0.3F));
    // A second box around the first one makes its walls thick; a low one is a chest.
    Mesh outside = box_room(Vec3(2.2F, 1.7F, 2.7F), wood);
    scene.room.push_back(outside);
    const std::optional<RoomBox> box = find_room_box(scene, World(scene));
    REQUIRE(box.has_value());
    for (int axis = 0; axis < 3; ++axis) {
        const float half = axis == 0 ? 2 : axis == 1 ? 1.5F : 2.5F;
        CHECK(box->low[axis] == doctest::Approx(-half));
        CHECK(box->high[axis] == doctest::Approx(half));
    }
    // The ground below is not the floor; a board of 2 cm on the floor is.
    CHECK(*floor_under(scene, box, Point(1, 0, 1)) == doctest::Approx(-1.5));
    Mesh board;
    add_quad(board,
             Point(-2, -1.48F, -2),
             Point(-2, -1.48F, 2),
             Point(2, -1.48F, 2),
             Point(2, -1.48F, -2),
             wood);
    scene.room.push_back(board);
    CHECK(*floor_under(scene, box, Point(1, 0, 1)) == doctest::Approx(-1.48));
}

TEST_CASE("everything that has to be carried is counted") {
    Scene scene = staged();
    scene.fixtures[1].kit = "led-spot-15";
    const DaySheet sheet = make_day_sheet(scene, World(scene), {});
    CHECK(carried(sheet, "fixture") == 3);
    CHECK(carried(sheet, "battery") == 2);
    CHECK(carried(sheet, "gel") == 1);
    CHECK(carried(sheet, "glass") == 2);
    CHECK(carried(sheet, "cloth") == 1);
    // Three lamps and the ball in the air; the other ball stands on the floor and the cloth is
    // clipped to a lamp.
    CHECK(carried(sheet, "stand") == 4);
    CHECK(carried(sheet, "clamp") == 1);
    CHECK(carried(sheet, "weight") == 4);
    CHECK(carried(sheet, "bond") == 1);  // the rim is 2.3 m up
    CHECK(carried(sheet, "cable") == 0);
    const bool names_kit =
        std::any_of(sheet.carry.begin(), sheet.carry.end(), [](const CarryItem& item) {
            return item.name.find("(led-spot-15)") != std::string::npos;
        });
    CHECK(names_kit);
}

TEST_CASE("glass on a shelf needs no stand, and the shelf is on the list") {
    Scene scene = staged();
    Column shelf;
    shelf.name = "shelf";
    shelf.position = Point(-0.8F, -1.5F, 0.7F);
    shelf.size = Vec2(1, 0.3F);
    shelf.height = 1.69F;  // the ball's base is 1 cm above it
    scene.columns = {shelf};
    const DaySheet sheet = make_day_sheet(scene, World(scene), {});
    CHECK(carried(sheet, "stand") == 3);
    CHECK(carried(sheet, "clamp") == 0);
    CHECK(place_of(sheet, scene.glasses[0].name).how.ends_with(", on the shelf"));
    REQUIRE(carried(sheet, "prop") == 1);
    const auto item = std::find_if(sheet.carry.begin(), sheet.carry.end(), [](const CarryItem& i) {
        return i.kind == "prop";
    });
    CHECK(item->name == "shelf, 1.00 x 0.30 m, 1.69 m high (unless the room has it)");
    CHECK(item->note == "stands 1.20 m from the left wall and 3.20 m from the back wall");
    // 4 cm lower the ball hangs in the air, and the shelf counts as a part of the room.
    scene.columns[0].height = 1.65F;
    const DaySheet lower = make_day_sheet(scene, World(scene), {});
    CHECK(carried(lower, "stand") == 4);
    CHECK(carried(lower, "prop") == 0);
}

TEST_CASE("a cable goes down to the floor and straight to the nearest socket") {
    Scene scene = staged();
    scene.power.mains = {Vec2(1.9F, 2.4F), Vec2(-1, -2)};
    const DaySheet sheet = make_day_sheet(scene, World(scene), {});
    REQUIRE(sheet.cables.size() == 1);
    CHECK(sheet.cables[0].fixture == "key");
    CHECK(sheet.cables[0].to.z == doctest::Approx(-2));
    CHECK(sheet.cables[0].length == doctest::Approx(1.9 + 3));
    CHECK(carried(sheet, "cable") == 1);
    scene.fixtures[0].position.y = 0.8F;  // 2.3 m down and 3 m along: longer than 5 m
    const std::vector<Gear> cables = {cable_of(5, {}), cable_of(10, {}), cable_of(15, {})};
    const DaySheet higher = make_day_sheet(scene, World(scene), cables);
    const auto cable = std::find_if(higher.carry.begin(),
                                    higher.carry.end(),
                                    [](const CarryItem& i) { return i.kind == "cable"; });
    REQUIRE(cable != higher.carry.end());
    CHECK(cable->name == "mains cable 10 m");
    CHECK_FALSE(cable->have.has_value());
}

TEST_CASE("what the user's kit has is counted against what the set needs") {
    Scene scene = staged();
    scene.fixtures[0].position.y = 1.3F;  // 2.8 m up: no stand of 2.6 m reaches it
    scene.fixtures[1].kit = "spot";
    Board cloth = scene.boards[0];
    cloth.name = "big cloth";
    cloth.clipped_to.clear();
    cloth.aim = Point(0);
    cloth.size = Vec2(1.2F, 0.9F);
    scene.boards.push_back(cloth);
    std::vector<Gear> gear = {stand_of("typical", 2.6F, {}),
                              stand_of("tall", 3, 2),
                              stand_of("short", 1.5F, 1),
                              cable_of(5, {})};
    gear.push_back({"frame", "frame", 1, 0, 0, Vec2(0.9F, 1.2F)});
    gear.push_back({"battery", "battery", 1});
    gear.push_back({"fixture", "spot", 0});
    const DaySheet sheet = make_day_sheet(scene, World(scene), gear);
    const auto item = [&](const std::string& name) {
        const auto found = std::find_if(sheet.carry.begin(),
                                        sheet.carry.end(),
                                        [&](const CarryItem& i) { return i.name == name; });
        CHECK_MESSAGE(found != sheet.carry.end(), name);
        return found == sheet.carry.end() ? CarryItem() : *found;
    };
    // Heights 2.8, 2.3, 1.7 (the ball), 1.0 m and the cloth at about 2.3 m. The two tall stands
    // take the highest two, the short one the lowest, and two are missing.
    CHECK(item("stand up to 3 m").count == 2);
    CHECK(missing(item("stand up to 3 m")) == 0);
    CHECK(item("stand up to 1.5 m").count == 1);
    CHECK(missing(item("stand up to 1.5 m")) == 0);
    CHECK(item("stand up to 2.6 m").count == 2);
    CHECK(missing(item("stand up to 2.6 m")) == 2);
    CHECK(item("frame 1.20 x 0.90 m").have == 1);
    CHECK(missing(item("battery, charged")) == 1);
    CHECK_FALSE(item("sandbag").have.has_value());
    const bool misses_spot =
        std::any_of(sheet.carry.begin(), sheet.carry.end(), [](const CarryItem& i) {
            return i.name.find("(spot)") != std::string::npos && missing(i) == 1;
        });
    CHECK(misses_spot);
}

TEST_CASE("the background comes first, then the figure, then the light from behind it") {
    const Scene scene = staged();
    const DaySheet sheet = make_day_sheet(scene, World(scene), {});
    REQUIRE(sheet.build_order.size() == 3);
    CHECK(sheet.build_order[0].stage == "background");
    CHECK(sheet.build_order[0].fixture == "wall");
    CHECK(sheet.build_order[1].stage == "figure");
    CHECK(sheet.build_order[1].fixture == "key");
    CHECK(sheet.build_order[2].stage == "accent");
    CHECK(sheet.build_order[2].fixture == "rim");
}

TEST_CASE("the hull of points is the smallest convex polygon around them") {
    std::vector<Vec2> points;
    for (int i = 0; i <= 4; ++i) {
        for (int j = 0; j <= 4; ++j) points.emplace_back(i, j);
    }
    const FlatPolygon hull = convex_hull(points);
    REQUIRE(hull.size() == 4);
    for (const Vec2& corner : hull) {
        CHECK((corner.x == 0 || corner.x == 4));
        CHECK((corner.y == 0 || corner.y == 4));
    }
}

TEST_CASE("a level plane cuts a box along its four walls") {
    const Mesh box = box_room(Vec3(2, 1.5F, 2.5F), MaterialId{0});
    const std::vector<Vec2> ends = cut_of({box}, 1, 0.3F, SheetView::kAbove, false);
    double length = 0;
    for (size_t i = 0; i + 1 < ends.size(); i += 2) {
        length += static_cast<double>(glm::distance(ends[i], ends[i + 1]));
    }
    CHECK(length == doctest::Approx(2 * (4 + 5)));
}
