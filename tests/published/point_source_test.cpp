// Point lamps: inverse square and cosine, a small Lambertian lamp, a lamp seen in a mirror.
//
// CIE 171:2006, case 5.2 style. The figures are recomputed for the geometry given here; they are
// not the report's own. The scenes have only the lamp and the meters.
#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "base/units.h"
#include "published/meter_sets.h"
#include "render/test_scenes.h"

namespace point_source_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Point lamps");

const std::string kCase = "E = I cos i / d²: CIE 171:2006, case 5.2 style, recomputed";
const std::string kInverseSquare =
    "IES Lighting Handbook, 10th ed., inverse square and cosine law (from memory)";

constexpr float kHeight = 3;  // m, of the lamp above the floor

const Direction kUp(0, 1, 0);

Fixture bare_point(const Point& position, double candela) {
    Fixture f = point_lamp(position, 0);
    f.output = OutputKind::kPeakCandela;
    f.output_value = candela;
    return f;
}

// I = 1000 cd cosθ: a panel so small that its size and chance change a figure by less than 1e-6.
Fixture small_panel(const Point& position, double candela) {
    Fixture f = bare_point(position, candela);
    f.form = FixtureForm::kPanel;
    f.panel_size = Vec2(0.001F);
    return f;
}

// The readings of meters under one lamp.
Readings under(const Fixture& lamp, const std::vector<Meter>& meters) {
    Scene scene;
    scene.fixtures = {lamp};
    scene.meters = meters;
    MeterOptions options;
    options.passes = 32;
    options.meter_walks = 64;
    return {scene, options};
}

// The readings of a row of meters under both lamps.
struct Reader {
    std::string name;
    Meter meter;
    const char *isotropic, *lambertian;
};

void check_rows(const std::vector<Reader>& rows) {
    std::vector<Meter> meters;
    for (const Reader& row : rows) meters.push_back(row.meter);
    const Point at(0, kHeight, 0);
    const Readings bare = under(bare_point(at, 1000), meters);
    const Readings panel = under(small_panel(at, 1000), meters);
    for (size_t i = 0; i < rows.size(); ++i) {
        kSubject.exact("1000 cd all round, " + rows[i].name,
                       kCase,
                       "lx",
                       rows[i].isotropic,
                       bare.lux(i).value);
        kSubject.exact(
            "1000 cd cosθ, " + rows[i].name, kCase, "lx", rows[i].lambertian, panel.lux(i).value);
    }
}

// Lux at `distance` m from a lamp of `candela`, on a meter tilted from the lamp's direction by
// `tilt` degrees.
double lux_at(double candela, float distance, double tilt) {
    const double t = radians_from_degrees(tilt);
    const Direction facing(std::sin(t), std::cos(t), 0);
    const Meter meter = point_meter(Point(0, kHeight - distance, 0), facing);
    return under(bare_point(Point(0, kHeight, 0), candela), {meter}).lux(0).value;
}

}  // namespace

TEST_CASE("a lamp under the ceiling gives the floor its published lux") {
    const struct {
        float x;
        const char *isotropic, *lambertian, *isotropic_diagonal, *lambertian_diagonal;
    } rows[] = {{0, "111.111", "111.111", "111.111", "111.111"},
                {0.5F, "106.637", "105.186", "102.456", "99.723"},
                {1, "94.868", "90.000", "82.230", "74.380"},
                {1.5F, "79.505", "71.111", "60.481", "49.383"},
                {2, "64.004", "53.254", "42.800", "31.142"}};
    std::vector<Reader> all;
    for (const auto& row : rows) {
        const std::string aside = figure(row.x) + " m";
        all.push_back({"floor 3 m below, " + aside + " aside",
                       point_meter(Point(row.x, 0, 0), kUp),
                       row.isotropic,
                       row.lambertian});
        if (row.x == 0) continue;
        all.push_back({"floor 3 m below, " + aside + " aside both ways",
                       point_meter(Point(row.x, 0, row.x), kUp),
                       row.isotropic_diagonal,
                       row.lambertian_diagonal});
    }
    check_rows(all);
}

TEST_CASE("a lamp under the ceiling gives a wall its published lux") {
    const struct {
        float height;
        const char *isotropic, *lambertian;
    } rows[] = {{0.5F, "60.946", "47.591"},
                {1, "88.388", "62.500"},
                {1.5F, "128.000", "76.800"},
                {2, "178.885", "80.000"},
                {2.5F, "228.269", "55.363"}};
    std::vector<Reader> all;
    for (const auto& row : rows) {
        all.push_back({"wall 2 m aside, " + figure(row.height) + " m up",
                       point_meter(Point(2, row.height, 0), Direction(-1, 0, 0)),
                       row.isotropic,
                       row.lambertian});
    }
    check_rows(all);
}

TEST_CASE("light falls with the square of the distance and the cosine of the angle") {
    const struct {
        double candela;
        float distance;
        double tilt;
        const char* lux;
    } rows[] = {{10000, 2, 0, "2500.00"},
                {10000, 3, 0, "1111.111"},
                {10000, 5, 0, "400.000"},
                {50000, 4, 0, "3125.00"},
                {10000, 3, 30, "962.250"},
                {10000, 3, 60, "555.556"}};
    for (const auto& row : rows) {
        kSubject.exact(figure(row.candela) + " cd at " + figure(row.distance) +
                           " m, surface turned " + figure(row.tilt) + "°",
                       kInverseSquare,
                       "lx",
                       row.lux,
                       lux_at(row.candela, row.distance, row.tilt));
    }
    const auto aside = static_cast<float>(kHeight * std::tan(radians_from_degrees(20.0)));
    const Readings oblique =
        under(bare_point(Point(0, kHeight, 0), 10000), {point_meter(Point(aside, 0, 0), kUp)});
    kSubject.exact("10000 cd, floor 3 m below, 20° off the axis",
                   kInverseSquare,
                   "lx",
                   "921.966",
                   oblique.lux(0).value);
}

TEST_CASE("a mirror adds the light of the lamp's image behind it") {
    Scene scene;
    Material metal = test::lambertian("mirror", 0.9F);
    metal.kind = MaterialKind::kConductor;
    Board mirror;
    mirror.centre = Point(0, 1, 0);
    mirror.facing = Direction(1, 0, 0);
    mirror.size = Vec2(6, 6);
    mirror.material = test::add_material(scene, metal);
    scene.boards.push_back(mirror);
    // A ball gives as much light as a point at any distance, and walks can hit it in the mirror.
    Fixture ball = bare_point(Point(1, 2, 0), 1000);
    ball.source_diameter = 0.6F;
    scene.fixtures = {ball};
    scene.meters = {point_meter(Point(1, 0, 0), kUp)};
    MeterOptions options;
    options.meter_walks = 8192;
    kSubject.mean(
        "1000 cd 2 m above, 1 m from a mirror of reflectance 0.9",
        "image source: 1000/2² + 0.9 · 1000 cos 45°/8",
        "lx",
        "329.550",
        Readings(scene, options).lux(0),
        {0.003, {0.019, "metal of 0.9 straight on reflects 0.90022 at 45° (Schlick 1994)"}});
}

}  // namespace point_source_test
