// Diffusers and edges: the light that a sheet transmits, and how soft a shadow is.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <string>
#include <vector>

#include "base/units.h"
#include "published/meter_sets.h"
#include "render/test_scenes.h"
#include "scene/boards_and_figures/cloths.h"

namespace diffuser_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Diffusers and shadows");

const std::string kLambert = "L = τ E/π: Lambert's law";
const std::string kStops = "log2 τ: transmittance in stops, definition";
const std::string kPenumbra = "penumbra s b/a, similar triangles";

const Direction kUp(0, 1, 0);

constexpr double kLux = 1000;  // on the sheet, from above

// A level sheet of 1 × 1 m at the origin, evenly lit from above.
Scene lit_sheet(float transmission, float spread) {
    Scene scene;
    Material cloth = test::sheet("cloth", 0, transmission, 0);
    cloth.spread = spread;
    Board board;
    board.kind = BoardKind::kDiffuser;
    board.facing = kUp;
    board.material = test::add_material(scene, cloth);
    scene.boards.push_back(board);
    scene.fixtures = {even_light(Point(0), 1, kLux)};
    return scene;
}

// A lamp 3 m above the floor, and a black board 1 m above the floor that covers x < 0.
Scene edge_scene(const Fixture& lamp, bool with_board) {
    Scene scene;
    scene.fixtures = {lamp};
    if (!with_board) return scene;
    Board board;
    board.centre = Point(-2, 1, 0);
    board.facing = kUp;
    board.size = Vec2(4);
    scene.boards.push_back(board);
    return scene;
}

// Lux on the floor at x with the board, divided by lux without it.
Estimate lit_share(const Fixture& lamp, float x) {
    Estimate with_and_without[2];
    for (const bool with_board : {true, false}) {
        Scene scene = edge_scene(lamp, with_board);
        scene.meters = {point_meter(Point(x, 0, 0), kUp)};
        MeterOptions options;
        options.seed = with_board ? 1 : 2;
        options.meter_walks = 1024;
        with_and_without[with_board ? 0 : 1] = Readings(scene, options).lux(0);
    }
    const auto& [with, without] = with_and_without;
    return {with.value / without.value,
            std::hypot(with.stderr_of_mean, with.value / without.value * without.stderr_of_mean) /
                without.value};
}

}  // namespace

TEST_CASE("a white diffuser lit from behind has the luminance of its transmittance") {
    const struct {
        float transmission;
        const char* luminance;
    } rows[] = {{0.25F, "79.577"}, {0.5F, "159.155"}, {0.7F, "222.817"}};
    // Lux of a square of 1000 cd/m² and this size on its axis: Siegel and Howell 1972.
    const struct {
        float distance;
        double lux;
    } places[] = {{0.5F, 1740.84}, {1, 752.275}, {3, 107.150}};
    for (const auto& row : rows) {
        Scene scene = lit_sheet(row.transmission, 1.2F);
        for (const auto& place : places) {
            scene.meters.push_back(point_meter(Point(0, -place.distance, 0), kUp));
        }
        MeterOptions options;
        options.meter_walks = 512;
        const Readings readings(scene, options);
        for (size_t i = 0; i < 3; ++i) {
            kSubject.mean("white diffuser of " + figure(row.transmission) +
                              " under 1000 lx, seen from " + figure(places[i].distance) + " m",
                          kLambert,
                          "cd/m²",
                          row.luminance,
                          scaled(readings.lux(i), 1000 / places[i].lux));
        }
    }
}

TEST_CASE("a diffuser of any spread loses the stops of its transmittance") {
    const struct {
        float transmission, spread;
        const char* stops;
    } rows[] = {{0.25F, 1.2F, "-2.0000"},
                {0.5F, 0.1F, "-1.0000"},
                {0.5F, 0.3F, "-1.0000"},
                {0.5F, 0.7F, "-1.0000"},
                {0.5F, 1.2F, "-1.0000"},
                {0.7F, 0.3F, "-0.5146"}};
    for (const auto& row : rows) {
        Scene scene = lit_sheet(row.transmission, row.spread);
        scene.meters = {rectangle_meter(Point(0, -kOffWall, 0), kUp, Vec2(1))};
        MeterOptions options;
        options.meter_walks = row.spread < 0.2F ? 1024 : 512;
        options.joined_per_meter_walk = 16;
        // 0.3 % of the light, in stops.
        const double most = 0.0043 / -std::log2(row.transmission);
        const Estimate lux = Readings(scene, options).lux(0);
        kSubject.mean("light right behind a diffuser of " + figure(row.transmission) + ", spread " +
                          figure(degrees_from_radians(row.spread), 3) + "°",
                      kStops,
                      "stops",
                      row.stops,
                      {std::log2(lux.value / kLux), lux.stderr_of_mean / lux.value / std::log(2.0)},
                      {most});
    }
}

// A soft, a dark and a partly clear cloth with the figures of scene/boards_and_figures/cloths.h. A
// meter behind each reads the light that its stops leave. scene/boards_and_figures/boards_test
// checks that every name has its figures.
TEST_CASE("named cloths lose their stops, by a meter right behind them" *
          doctest::test_suite("slow")) {
    const std::string picked[] = {"quarter", "silk", "grid"};
    for (const Cloth& cloth : kCloths) {
        if (std::find(std::begin(picked), std::end(picked), cloth.name) == std::end(picked))
            continue;
        const double transmission = std::exp2(-cloth.stops);
        Scene scene = lit_sheet(static_cast<float>(transmission),
                                static_cast<float>(radians_from_degrees(cloth.spread_deg)));
        scene.materials.back().direct = static_cast<float>(cloth.direct);
        scene.meters = {rectangle_meter(Point(0, -kOffWall, 0), kUp, Vec2(1))};
        MeterOptions options;
        options.meter_walks = 512;
        options.joined_per_meter_walk = 16;
        const Estimate lux = Readings(scene, options).lux(0);
        kSubject.mean(std::string("light right behind \"") + cloth.name + "\"",
                      kStops,
                      "stops",
                      figure(-cloth.stops),
                      {std::log2(lux.value / kLux), lux.stderr_of_mean / lux.value / std::log(2.0)},
                      {0.0043 / cloth.stops});
    }
}

TEST_CASE("the shadow of an edge is as soft as the panel is wide") {
    // s = 0.3 m, a = 2 m, b = 1 m: the shadow's edge is 0.15 m wide.
    Fixture panel = test::fixture_of(FixtureForm::kPanel, Point(0, 3, 0), Point(0), 1000);
    panel.panel_size = Vec2(0.3F);
    const Allowance aslant{8e-4, "the panel's far side shines a little farther and more aslant"};
    const struct {
        float x;
        const char* share;
    } rows[] = {{-0.0375F, "0.25000"}, {0, "0.50000"}, {0.0375F, "0.75000"}};
    for (const auto& row : rows) {
        kSubject.mean("panel of 0.3 m, edge 2 m away, floor 1 m on, " + figure(row.x) + " m aside",
                      kPenumbra,
                      "of full light",
                      row.share,
                      lit_share(panel, row.x),
                      {0.003, aslant});
    }
    kSubject.exact("the same, -0.0755 m aside: dark",
                   kPenumbra,
                   "of full light",
                   "0.0000",
                   lit_share(panel, -0.0755F).value);
    kSubject.mean("the same, 0.0755 m aside: full light",
                  kPenumbra,
                  "of full light",
                  "1.0000",
                  lit_share(panel, 0.0755F));
}

TEST_CASE("the shadow of an edge is sharp under a point") {
    const Fixture point = point_lamp(Point(0, 3, 0), 1000);
    const struct {
        float x;
        const char *place, *share;
    } rows[] = {{-0.001F, "1 mm inside the shadow", "0.0000"}, {0.001F, "1 mm outside", "1.0000"}};
    for (const auto& row : rows) {
        kSubject.exact(std::string("point, ") + row.place,
                       kPenumbra,
                       "of full light",
                       row.share,
                       lit_share(point, row.x).value);
    }
}

}  // namespace diffuser_test
