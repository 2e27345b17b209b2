// Light from a lit surface to another, and from a panel to a face: configuration factors.
//
// CIE 171:2006, case 5.6 style. The figures are recomputed for the geometry given here; they are
// not the report's own. Faces: Howell, A Catalog of Radiation Heat Transfer Configuration Factors,
// C-11 (opposed rectangles) and C-14 (rectangles with a common edge), recomputed.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "base/units.h"
#include "published/meter_sets.h"
#include "render/test_scenes.h"

namespace reflection_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Light from surface to surface");

const std::string kCase = "F of a square: CIE 171:2006, case 5.6 style, recomputed";
const std::string kOpposed = "Howell, Catalog of Configuration Factors, C-11, recomputed";
const std::string kCorner = "Howell, Catalog of Configuration Factors, C-14, recomputed";
const std::string kClosure = "the factors from one face of a closed box sum to 1";

const Direction kUp(0, 1, 0);

// The share of a Lambertian panel's light that reaches a rectangle.
Estimate factor(const Fixture& panel, const Meter& rectangle) {
    Scene scene;
    scene.fixtures = {panel};
    scene.fixtures[0].output_value = 1;
    scene.meters = {rectangle};
    MeterOptions options;
    options.meter_walks = 1024;
    const double area = static_cast<double>(rectangle.size.x) * rectangle.size.y;
    return scaled(Readings(scene, options).lux(0), area);
}

Fixture panel_at(const Point& centre, const Direction& facing, const Vec2& size) {
    Fixture f = test::fixture_of(FixtureForm::kPanel, centre, centre + facing, 1);
    f.panel_size = size;
    return f;
}

}  // namespace

TEST_CASE("a lit square of paint gives the published light above it") {
    const struct {
        float side;
        const char *centre, *edge, *corner;
    } rows[] = {{0.5F, "0.008761", "0.008643", "0.008527"},
                {4, "0.357685", "0.244719", "0.171821"},
                {500, "0.999882", "0.499961", "0.249993"}};
    constexpr double kLux = 1000;
    constexpr float kReflectance = 0.6F;
    for (const auto& row : rows) {
        Scene scene;
        Board square;
        square.facing = kUp;
        square.size = Vec2(row.side);
        square.material = test::add_material(scene, test::lambertian("paint", kReflectance));
        scene.boards.push_back(square);
        scene.fixtures = {even_light(Point(0), row.side, kLux)};
        const float half = 0.5F * row.side;
        for (const Point& over : {Point(0, 3, 0), Point(half, 3, 0), Point(half, 3, half)}) {
            scene.meters.push_back(point_meter(over, -kUp));
        }
        MeterOptions options;
        options.meter_walks = 1024;
        // Only a twelfth of the beam reaches the square, so each meter walk is connected to more
        // light walks.
        options.joined_per_meter_walk = 32;
        const Readings readings(scene, options);
        const std::string of =
            " of a square of " + figure(row.side) + " m, 3 m above, over ρ E of the square";
        const double full = kReflectance * kLux;
        const struct {
            const char *place, *factor;
        } places[] = {{"centre", row.centre}, {"edge", row.edge}, {"corner", row.corner}};
        for (size_t i = 0; i < 3; ++i) {
            kSubject.mean(places[i].place + of,
                          kCase,
                          "",
                          places[i].factor,
                          scaled(readings.lux(i), 1 / full));
        }
    }
}

TEST_CASE("opposed panels and faces exchange the published share of light") {
    const struct {
        const char* name;
        Vec2 size;
        float gap;
        const char* factor;
    } rows[] = {{"squares, gap of a side", Vec2(1, 1), 1, "0.199825"},
                {"squares, gap of half a side", Vec2(1, 1), 0.5F, "0.415253"},
                {"squares, gap of two sides", Vec2(1, 1), 2, "0.068590"},
                {"squares, gap of a tenth of the side", Vec2(1, 1), 0.1F, "0.826995"},
                {"1 × 1.5 m, gap of 0.5 m", Vec2(1, 1.5F), 0.5F, "0.475576"},
                {"floor and ceiling of 4 × 4 m, 3 m apart", Vec2(4, 4), 3, "0.282733"}};
    for (const auto& row : rows) {
        kSubject.mean(std::string("opposed ") + row.name,
                      kOpposed,
                      "",
                      row.factor,
                      factor(panel_at(Point(0, row.gap, 0), -kUp, row.size),
                             rectangle_meter(Point(0), kUp, row.size)));
    }
}

TEST_CASE("panels and faces with a common edge exchange the published share of light") {
    const struct {
        const char* name;
        float width, height;  // m, of the panel and of the face; their common edge is 1 m
        const char* factor;
    } rows[] = {{"squares", 1, 1, "0.200044"},
                {"floor 1, wall 0.75 of the edge", 1, 0.75F, "0.179317"}};
    for (const auto& row : rows) {
        const Point wall(0, 0.5F * row.height, 0);
        const Point floor(0.5F * row.width, 0, 0);
        kSubject.mean(std::string("at right angles, ") + row.name,
                      kCorner,
                      "",
                      row.factor,
                      factor(panel_at(floor, kUp, Vec2(row.width, 1)),
                             rectangle_meter(wall, Direction(1, 0, 0), Vec2(1, row.height))));
    }
}

TEST_CASE("the other faces of a box together receive all light of a face") {
    for (const Vec3& half : {Vec3(2), Vec3(2, 1.5F, 2)}) {
        Scene scene = box_scene(half, 0);
        const Vec2 floor(2 * half.x, 2 * half.z);
        scene.fixtures = {panel_at(Point(0, -half.y + 1e-4F, 0), kUp, floor)};
        scene.meters = face_meters(half);
        MeterOptions options;
        options.meter_walks = 1024;
        std::vector<Weighted> parts;
        const auto faces = faces_of_box(half);
        for (size_t i = 0; i < faces.size(); ++i) parts.push_back({i, faces[i].area()});
        kSubject.mean("all factors of the floor, box " + figure(2 * half.y) + " m high, 4 × 4 m",
                      kClosure,
                      "",
                      "1.00000",
                      Readings(scene, options).sum(parts));
    }
}

}  // namespace reflection_test
