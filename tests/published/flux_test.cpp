// Closed boxes: all lumens of a lamp arrive at the walls.
//
// CIE 171:2006, case 5.4 style. The figures are recomputed for the geometry given here; they are
// not the report's own. The share of a face is its solid angle divided by 4π.
#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "base/units.h"
#include "published/meter_sets.h"
#include "render/test_scenes.h"

namespace flux_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Flux in closed boxes");

const std::string kCase = "CIE 171:2006, case 5.4 style, recomputed";
const std::string kSolidAngle = "solid angle of a rectangle: " + kCase;
const std::string kBalance = "Φ = Σ (1 - ρ) E A, exact in any closed room";

const Vec3 kHalf(2, 1.5F, 2);  // a box of 4 × 3 × 4 m
constexpr double kLumens = 10000;

// The flux that walls of these reflectances absorb.
Estimate kept_by_walls(const Readings& readings, const std::array<float, 6>& reflectances) {
    const auto faces = faces_of_box(kHalf);
    std::vector<Weighted> parts;
    for (size_t i = 0; i < faces.size(); ++i) {
        parts.push_back({i, (1.0 - reflectances[i]) * faces[i].area()});
    }
    return readings.sum(parts);
}

}  // namespace

TEST_CASE("each black wall of a box receives the lumens of its solid angle") {
    const struct {
        float height;  // m over the floor
        const char *place, *floor, *ceiling, *wall;
    } rows[] = {{1.5F, "lamp at the centre", "2210.657", "2210.657", "1394.672"},
                {2.5F, "lamp 2.5 m up", "1276.093", "3902.782", "1205.281"}};
    for (const auto& row : rows) {
        Scene scene = box_scene(kHalf, 0);
        scene.fixtures = {point_lamp(Point(0, row.height - kHalf.y, 0), kLumens)};
        scene.meters = face_meters(kHalf);
        MeterOptions options;
        options.meter_walks = 1024;
        const Readings readings(scene, options);
        const auto faces = faces_of_box(kHalf);
        for (size_t i = 0; i < faces.size(); ++i) {
            kSubject.mean(faces[i].name + ", " + row.place,
                          kSolidAngle,
                          "lm",
                          i == 0   ? row.floor
                          : i == 1 ? row.ceiling
                                   : row.wall,
                          scaled(readings.lux(i), faces[i].area()));
        }
        kSubject.mean(std::string("all faces, ") + row.place,
                      kCase,
                      "lm",
                      "10000.0",
                      kept_by_walls(readings, {}));
    }
}

TEST_CASE("an opening admits the light of its luminance and its area") {
    const struct {
        float side;
        const char* lumens;
    } rows[] = {{1, "3141.593"}, {2, "12566.37"}, {3, "28274.33"}, {4, "50265.48"}};
    for (const auto& row : rows) {
        Scene scene = box_scene(kHalf, 0);
        // The opening is a panel of 1000 cd/m² on the ceiling.
        Fixture f =
            test::fixture_of(FixtureForm::kPanel, Point(0, kHalf.y - 1e-4F, 0), Point(0, -1, 0), 0);
        f.panel_size = Vec2(row.side);
        f.output = OutputKind::kPeakCandela;
        f.output_value = 1000.0 * row.side * row.side;
        scene.fixtures = {f};
        scene.meters = face_meters(kHalf);
        MeterOptions options;
        options.meter_walks = 1024;
        const std::string side = figure(row.side);
        kSubject.mean("opening of " + side + " × " + side + " m under 1000 cd/m², all faces",
                      "π L A: " + kCase,
                      "lm",
                      row.lumens,
                      kept_by_walls(Readings(scene, options), {}));
    }
}

TEST_CASE("walls of different reflectances together absorb all lumens of a lamp" *
          doctest::test_suite("slow")) {
    const struct {
        const char* name;
        std::array<float, 6> reflectances;
    } rows[] = {{"dark floor, light ceiling, grey walls", {0.2F, 0.8F, 0.5F, 0.5F, 0.5F, 0.5F}},
                {"one black wall, white others", {0.9F, 0.9F, 0, 0.9F, 0.9F, 0.9F}},
                {"six unlike faces", {0.1F, 0.7F, 0.3F, 0.95F, 0.5F, 0.6F}}};
    const Fixture bare = point_lamp(Point(0.7F, 0.9F, -1.1F), kLumens);
    Fixture spot = test::fixture_of(
        FixtureForm::kSpot, Point(-1.5F, 1, 1.2F), Point(1, -1.5F, -0.5F), kLumens);
    spot.source_diameter = 0;
    for (const auto& row : rows) {
        for (const Fixture& lamp : {bare, spot}) {
            Scene scene = box_scene(kHalf, row.reflectances);
            scene.fixtures = {lamp};
            scene.meters = face_meters(kHalf);
            MeterOptions options;
            options.meter_walks = 512;
            const std::string form = lamp.form == FixtureForm::kSpot ? "spot" : "bare lamp";
            kSubject.mean(form + ", " + row.name,
                          kBalance,
                          "lm",
                          "10000.0",
                          kept_by_walls(Readings(scene, options), row.reflectances));
        }
    }
}

}  // namespace flux_test
