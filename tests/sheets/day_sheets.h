// Day sheets made in code, with any number of fixtures.
#pragma once

#include <string>
#include <vector>

#include "scene/day_sheet.h"

namespace dapple::test {

inline FlatPolygon square_around(const Vec2& centre, float half) {
    return {centre + Vec2(-half, -half),
            centre + Vec2(half, -half),
            centre + Vec2(half, half),
            centre + Vec2(-half, half)};
}

inline PlacedThing placed(const DaySheet& sheet,
                          PlaceKind kind,
                          const std::string& label,
                          const std::string& name,
                          const Point& at) {
    PlacedThing thing;
    thing.kind = kind;
    thing.label = label;
    thing.name = name;
    thing.at = {at, Vec2(at.x, at.z) - Vec2(sheet.room.box->low.x, sheet.room.box->low.z), at.y};
    thing.aim = TapePlace{Point(0, 1.4F, -1), Vec2(3, 1), 1.4F};
    thing.how = "tungsten spot 150 W, beam 25°, 3200 K";
    thing.from_above = {square_around(Vec2(at.x, at.z), 0.1F)};
    thing.from_side = {square_around(Vec2(at.x, at.y), 0.1F)};
    return thing;
}

inline void add_fixture(DaySheet& sheet, const std::string& name, const Point& at) {
    const std::string label = std::to_string(sheet.list.fixtures.size() + 1);
    PlacedThing thing = placed(sheet, PlaceKind::kFixture, label, name, at);
    thing.beam = DrawnBeam{glm::normalize(Point(0, 1.4F, -1) - at), 0.4, 0.6, 3};
    sheet.places.push_back(thing);
    PackedFixture packed;
    packed.name = name;
    sheet.list.fixtures.push_back(packed);
    sheet.list.cautions.push_back({"overhead", name, "2.4 m up", "secure it with a safety bond"});
    sheet.carry.push_back({"fixture", "spot " + label, 1, "", {{name, ""}}});
    sheet.build_order.push_back({"background", name, "lights wall_back"});
    sheet.targets->push_back({"face", name, false, 100, 1, 2.8, "2.8", 0.01});
}

// A room of 6 × 4 × 3 m with the fixtures on two rings close around one point, so that their labels
// crowd, and with as many glasses as fixtures up to 6.
inline DaySheet crowded_sheet(int fixtures, const std::string& name) {
    DaySheet sheet;
    sheet.list.title = "A crowded set";
    sheet.list.circuits = {{"A", {}, 1000, 4.3, 0, 0.4}};
    sheet.list.circuit_a = 10;
    sheet.camera.position = Point(0, 1.5F, 1.8F);
    sheet.room.box = RoomBox{Point(-3, 0, -2), Point(3, 3, 2)};
    sheet.room.is_plain_box = true;
    sheet.meters = {"face"};
    sheet.targets.emplace();
    sheet.build_rule = "Background, figure, accents.";
    sheet.places.push_back(
        placed(sheet, PlaceKind::kCamera, "cam", "camera", sheet.camera.position));
    sheet.places.push_back(placed(sheet, PlaceKind::kMeter, "M1", "face", Point(0, 1.5F, -0.9F)));
    for (int i = 0; i < fixtures; ++i) {
        const double angle = 2.4 * i;
        const double radius = i % 2 == 0 ? 0.25 : 0.5;
        const Point at(static_cast<float>(0.8 + radius * std::cos(angle)),
                       1.6F + 0.02F * static_cast<float>(i % 7),
                       static_cast<float>(-0.5 + radius * std::sin(angle)));
        add_fixture(sheet, name + std::to_string(i + 1), at);
        if (i >= 6) continue;
        const std::string label = "G" + std::to_string(i + 1);
        sheet.places.push_back(placed(sheet,
                                      PlaceKind::kGlass,
                                      label,
                                      "jar " + std::to_string(i),
                                      at + Vec3(0.2F, -0.2F, 0)));
    }
    sheet.targets->push_back({"face", "", false, 500, 1, 5.6, "5.6", 0.01});
    return sheet;
}

}  // namespace dapple::test
