// Panels and balls: large lamps near the meter.
//
// CIE 171:2006, case 5.3 style. The figures are recomputed for the geometry given here; they are
// not the report's own. Rectangles: E = π L F with the configuration factors of Siegel and Howell
// 1972, of rectangles with a common corner, added and subtracted.
#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "base/units.h"
#include "published/meter_sets.h"
#include "render/test_scenes.h"
#include "scene/build_scene.h"
#include "set/read_set.h"

namespace area_source_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Panels and balls of light");

const std::string kCase = "π L F: CIE 171:2006, case 5.3 style, recomputed";
const std::string kRectangle = "π L F of a rectangle: Siegel and Howell 1972";
const std::string kBall = "E = π L R²/r², horizon cut: L (t - sin t)/2, t = 2 asin(R/r)";
const std::string kDisc = "configuration factor of a disc, by reciprocity (from memory)";

constexpr double kLuminance = 1000;  // cd/m²

const Direction kUp(0, 1, 0);

Fixture lamp_of(FixtureForm form, const Point& position, double candela) {
    Fixture f = test::fixture_of(form, position, position - kUp, 0);
    f.output = OutputKind::kPeakCandela;
    f.output_value = candela;
    return f;
}

// A panel that faces down.
Fixture panel(const Vec2& size, const Point& centre) {
    Fixture f =
        lamp_of(FixtureForm::kPanel, centre, kLuminance * static_cast<double>(size.x) * size.y);
    f.panel_size = size;
    return f;
}

Readings read(const Fixture& lamp, const std::vector<Meter>& meters) {
    Scene scene;
    scene.fixtures = {lamp};
    scene.meters = meters;
    MeterOptions options;
    options.meter_walks = 512;
    return {scene, options};
}

}  // namespace

TEST_CASE("a panel under the ceiling gives floor and wall their published lux") {
    const struct {
        const char* name;
        Point at;
        Direction facing;
        const char* lux;
    } rows[] = {{"floor below", Point(0), kUp, "107.150"},
                {"floor, 0.5 m aside", Point(0.5F, 0, 0), kUp, "101.813"},
                {"floor, 1 m aside", Point(1, 0, 0), kUp, "87.931"},
                {"floor, 1.5 m aside", Point(1.5F, 0, 0), kUp, "70.253"},
                {"floor, 2 m aside", Point(2, 0, 0), kUp, "53.126"},
                {"floor, 0.5 m aside both ways", Point(0.5F, 0, 0.5F), kUp, "96.853"},
                {"floor, 1 m aside both ways", Point(1, 0, 1), kUp, "73.351"},
                {"floor, 1.5 m aside both ways", Point(1.5F, 0, 1.5F), kUp, "49.370"},
                {"floor, 2 m aside both ways", Point(2, 0, 2), kUp, "31.390"},
                {"wall 2 m aside, 0.5 m up", Point(2, 0.5F, 0), Direction(-1, 0, 0), "46.301"},
                {"wall 2 m aside, 1 m up", Point(2, 1, 0), Direction(-1, 0, 0), "61.137"},
                {"wall 2 m aside, 1.5 m up", Point(2, 1.5F, 0), Direction(-1, 0, 0), "76.294"},
                {"wall 2 m aside, 2 m up", Point(2, 2, 0), Direction(-1, 0, 0), "81.885"},
                {"wall 2 m aside, 2.5 m up", Point(2, 2.5F, 0), Direction(-1, 0, 0), "58.874"}};
    std::vector<Meter> meters;
    for (const auto& row : rows) meters.push_back(point_meter(row.at, row.facing));
    const Readings readings = read(panel(Vec2(1), Point(0, 3, 0)), meters);
    size_t i = 0;
    for (const auto& row : rows) {
        kSubject.mean(std::string("1 × 1 m of 1000 cd/m² 3 m up: ") + row.name,
                      kCase,
                      "lx",
                      row.lux,
                      readings.lux(i++));
    }
}

// The same panel as a window of a black room, written as in a set file: by a wall and tape
// measures, and by the name of a surface, a wall of one square metre.
TEST_CASE("a window gives the room the published lux of a panel of its luminance") {
    const std::string rest =
        "luminance_cd_m2 = 1000\n[camera]\nposition = [0, 0.5, 0]\naim = [0, 0.5, 1]\n";
    const auto scene_of = [&](const std::string& room, const std::string& window) {
        Problems problems;
        const std::string text =
            "[room]\n" + room + "reflectance = 0\n[[window]]\n" + window + rest;
        Scene scene =
            build_scene(read_set_text(text, "set.toml", problems), ImageReader(), problems);
        CHECK(problems.all().empty());
        return scene;
    };
    MeterOptions options;
    options.meter_walks = 512;
    Scene tape = scene_of("size_m = [6.002, 8, 6]\n",
                          "wall = \"wall_left\"\ncentre_m = [0.5, 3]\nsize_m = [1, 1]\n");
    tape.meters = {point_meter(Point(0, 3, 0.5F), Direction(-1, 0, 0)),
                   point_meter(Point(0, 3, 1.5F), Direction(-1, 0, 0)),
                   point_meter(Point(-1.5F, 3, 2.5F), Direction(0, 0, -1))};
    const Readings by_tape(tape, options);
    const std::string window = "1 × 1 m window of 1000 cd/m²: ";
    kSubject.mean(window + "3 m in front", kCase, "lx", "107.150", by_tape.lux(0));
    kSubject.mean(window + "3 m in front, 1 m aside", kCase, "lx", "87.931", by_tape.lux(1));
    kSubject.mean(
        window + "1.5 m in front, on a wall 2 m aside", kCase, "lx", "76.294", by_tape.lux(2));

    Scene named = scene_of("size_m = [6.002, 1, 1]\n", "surface = \"wall_left\"\n");
    named.meters = {point_meter(Point(0, 0.5F, 0), Direction(-1, 0, 0))};
    kSubject.mean(window + "a whole wall, 3 m in front",
                  kCase,
                  "lx",
                  "107.150",
                  Readings(named, options).lux(0));
}

TEST_CASE("a square panel gives its published lux from half its side to ten sides away") {
    const struct {
        float distance;
        const char* lux;
    } rows[] = {{0.5F, "1740.84"},
                {1, "752.275"},
                {2, "230.837"},
                {3, "107.150"},
                {5, "39.474"},
                {10, "9.967"}};
    for (const auto& row : rows) {
        const Readings readings =
            read(panel(Vec2(1), Point(0, row.distance, 0)), {point_meter(Point(0), kUp)});
        kSubject.mean("1 × 1 m of 1000 cd/m², " + figure(row.distance) + " m in front",
                      kRectangle,
                      "lx",
                      row.lux,
                      readings.lux(0));
    }
}

TEST_CASE("in front of its corner a panel has its published configuration factor") {
    const struct {
        float a, b, c;
        const char* factor;
    } rows[] = {{1, 1, 1, "0.138532"}, {1, 1, 2, "0.059864"}, {2, 1, 1, "0.167375"}};
    for (const auto& row : rows) {
        const Point centre(0.5F * row.a, row.c, 0.5F * row.b);
        const Readings readings =
            read(panel(Vec2(row.a, row.b), centre), {point_meter(Point(0), kUp)});
        kSubject.mean("panel of " + figure(row.a) + " × " + figure(row.b) + " m, " + figure(row.c) +
                          " m in front of its corner",
                      kRectangle,
                      "",
                      row.factor,
                      scaled(readings.lux(0), 1 / (kPi * kLuminance)));
    }
}

TEST_CASE("a ball of light gives the lux of its luminance at any distance") {
    const struct {
        const char* name;
        double luminance;
        float radius, distance;
        Direction facing;
        const char* lux;
    } rows[] = {{"facing it", 20, 1, 5, kUp, "2.513274"},
                {"facing it", 1000, 0.5F, 0.6F, kUp, "2181.662"},
                {"facing it", 1000, 0.5F, 10, kUp, "7.853982"},
                {"half below the horizon", 200, 1, 5, Direction(1, 0, 0), "1.079748"}};
    for (const auto& row : rows) {
        Fixture ball = lamp_of(FixtureForm::kBare,
                               Point(0, row.distance, 0),
                               row.luminance * kPi * square(row.radius));
        ball.source_diameter = 2 * row.radius;
        kSubject.mean("ball of " + figure(row.radius) + " m and " + figure(row.luminance) +
                          " cd/m², centre " + figure(row.distance) + " m away, " + row.name,
                      kBall,
                      "lx",
                      row.lux,
                      read(ball, {point_meter(Point(0), row.facing)}).lux(0));
    }
}

// No lamp has a round Lambertian face. By reciprocity the flux from a small panel to a disc has the
// same factor as the light of a disc lamp at the panel's place.
TEST_CASE("a disc receives from a small panel the published light of a disc lamp") {
    const struct {
        float radius, distance, aside;
        const char* lux;
    } rows[] = {{0.5F, 1, 0, "628.3185"},
                {0.5F, 2, 0, "184.7996"},
                {0.5F, 5, 0, "31.1049"},
                {1, 1, 0, "1570.7963"},
                {0.5F, 2, 1, "123.0949"},
                {0.5F, 2, 2, "49.8299"}};
    for (const auto& row : rows) {
        Fixture small = panel(Vec2(0.001F), Point(row.aside, row.distance, 0));
        small.output = OutputKind::kLumens;
        small.output_value = 1;
        const Readings readings = read(small, {disc_meter(Point(0), kUp, 2 * row.radius)});
        const double share = kPi * square(row.radius);  // of the panel's one lumen, per lx
        kSubject.mean("disc of " + figure(row.radius) + " m and 1000 cd/m², " +
                          figure(row.distance) + " m away, " + figure(row.aside) + " m aside",
                      kDisc,
                      "lx",
                      row.lux,
                      scaled(readings.lux(0), share * kPi * kLuminance));
    }
}

TEST_CASE("a Lambertian lamp sends the squared sine of an angle as its share within the angle") {
    const struct {
        double angle;
        const char* share;
    } rows[] = {{10, "0.0302"}, {20, "0.1170"}, {30, "0.2500"}, {45, "0.5000"}, {60, "0.7500"}};
    for (const auto& row : rows) {
        Fixture small = panel(Vec2(0.001F), Point(0, 1, 0));
        small.output = OutputKind::kLumens;
        small.output_value = 1;
        const double radius = std::tan(radians_from_degrees(row.angle));
        const Readings readings =
            read(small, {disc_meter(Point(0), kUp, static_cast<float>(2 * radius))});
        kSubject.mean("share within " + figure(row.angle) + "° of the axis",
                      "sin² of the angle: Lambert's law",
                      "",
                      row.share,
                      scaled(readings.lux(0), kPi * radius * radius));
    }
}

}  // namespace area_source_test
