// Panes of glass: transmittance, reflectance, shift of rays, absorption.
//
// There are two models. A window pane of one surface (materials/thin_glass.h) follows each
// polarisation separately through all reflections between its faces, as the published tables do. A
// solid pane is traced surface by surface, with light taken as unpolarised at each. That is exact
// for its model, and away from the normal a little darker than the tables; the difference has a row
// of its own.
#include <doctest/doctest.h>

#include <cmath>

#include "materials/glass_catalogue.h"
#include "published/published.h"
#include "published/traced.h"

namespace pane_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Panes of glass");
const char* const kTable = "Duffie and Beckman, ch. 5; Born and Wolf";

struct Angle {
    const char* degrees;
    const char *passed, *reflected;  // the mean of both polarisations
    const char* unpolarised;         // passed if R is averaged at each surface: (1 - R)/(1 + R)
};

// n = 1.52, without absorption.
constexpr Angle kAngles[] = {{"0", "0.91832", "0.08168", "0.91832"},
                             {"20", "0.91790", "0.08210", "0.91781"},
                             {"30", "0.91596", "0.08404", "0.91545"},
                             {"45", "0.90253", "0.09747", "0.89925"},
                             {"50", "0.89116", "0.10884", "0.88574"},
                             {"60", "0.84347", "0.15653", "0.83069"},
                             {"70", "0.72471", "0.27529", "0.70255"},
                             {"75", "0.61481", "0.38519", "0.59145"},
                             {"80", "0.45604", "0.54396", "0.43787"},
                             {"85", "0.24565", "0.75435", "0.23845"}};

std::string at(const char* degrees) {
    return std::string(" at ") + degrees + "°";
}

Walk towards_pane(double degrees) {
    const glm::dvec3 direction = heading(degrees);
    return Bench::walk(Point(-0.1 * direction), direction);
}

PaneShares thin_pane(float index, float optical_depth, double degrees) {
    const ThinGlass pane{Spectrum(index), Spectrum(optical_depth)};
    return pane_shares(pane, static_cast<float>(std::cos(radians_from_degrees(degrees))));
}

}  // namespace

TEST_CASE("a window pane of one surface transmits and reflects the published shares") {
    for (const Angle& row : kAngles) {
        const PaneShares shares = thin_pane(1.52F, 0, std::stod(row.degrees));
        kSubject.exact("Transmitted by a window pane, n = 1.52," + at(row.degrees),
                       kTable,
                       "",
                       row.passed,
                       shares.transmitted[0]);
        kSubject.exact("Reflected by a window pane, n = 1.52," + at(row.degrees),
                       kTable,
                       "",
                       row.reflected,
                       shares.reflected[0]);
    }
    kSubject.exact("Transmitted by a window pane, n = 1.5, at 0°",
                   kTable,
                   "",
                   "0.923077",
                   thin_pane(1.5F, 0, 0).transmitted[0]);
    for (const auto& [degrees, passed] : {std::pair{"0", "0.91688"}, std::pair{"60", "0.84210"}}) {
        kSubject.exact(std::string("Transmitted by a window pane, n = 1.526,") + at(degrees),
                       kTable,
                       "",
                       passed,
                       thin_pane(1.526F, 0, std::stod(degrees)).transmitted[0]);
    }
}

TEST_CASE("a solid pane transmits the share of light that is unpolarised at each surface") {
    const Bench bench(pane_scene(0.004F), kAnyWavelength);
    for (const Angle& row : kAngles) {
        const PaneLight light = split_at_pane(bench, towards_pane(std::stod(row.degrees)), 1.52F);
        kSubject.exact("Transmitted by a solid pane, n = 1.52," + at(row.degrees) +
                           ", against R averaged at each surface",
                       "(1 - R)/(1 + R), R by Fresnel; Born and Wolf",
                       "",
                       row.unpolarised,
                       light.on);
        // The difference of the two models, and the rounding of both.
        const Allowance averaged{
            std::abs(std::stod(row.passed) - std::stod(row.unpolarised)) + 1e-5,
            "polarisation is not traced"};
        kSubject.exact("Transmitted by a solid pane, n = 1.52," + at(row.degrees),
                       kTable,
                       "",
                       row.passed,
                       light.on,
                       averaged);
        kSubject.exact("Transmitted and reflected together by a solid pane" + at(row.degrees),
                       "nothing is lost",
                       "",
                       "1.00000",
                       light.on + light.back);
    }
}

TEST_CASE("a solid pane transmits the same if chance decides at each surface") {
    constexpr int64_t kWalks = 200000;
    const Bench bench(pane_scene(0.004F), kAnyWavelength);
    RandomStream random(1, 0, 0, Purpose::kLightWalk);
    Tally on;
    for (int64_t i = 0; i < kWalks; ++i) {
        Walk walk = towards_pane(60);
        const auto direction = let_go(bench, walk, 1.52F, random);
        if (direction && direction->x > 0) on.add(1);
    }
    kSubject.mean(
        "Transmitted by a solid pane, n = 1.52, at 60°, walks by chance, against R averaged at "
        "each surface",
        "(1 - R)/(1 + R), R by Fresnel; Born and Wolf",
        "",
        "0.83069",
        on.mean_of(kWalks));
}

// Window glass of 4 mm (Rubin 1985: n = 1.52514, k = 2.200e-7 at 550 nm), as a sheet of one surface
// in a room. Walks pass it or are reflected by it, and carry the light that is not absorbed.
TEST_CASE("walks pass a window pane in a room with the published share") {
    constexpr int kWalks = 100000;
    Scene scene;
    Board board;
    board.facing = Direction(1, 0, 0);
    Material glass;
    glass.kind = MaterialKind::kThinGlass;
    board.material = test::add_material(scene, glass);
    scene.boards.push_back(board);
    const Bench bench(scene, 550);
    RandomStream random(1, 0, 0, Purpose::kLightWalk);
    const std::pair<const char*, const char*> rows[] = {{"0", "0.89877"}, {"60", "0.82140"}};
    for (const auto& [degrees, passed] : rows) {
        Tally on;
        for (int i = 0; i < kWalks; ++i) {
            Walk walk = towards_pane(std::stod(degrees));
            const auto direction = let_go(bench, walk, kCatalogueIndex, random);
            if (direction && direction->x > 0) on.add(walk.light.throughput[0]);
        }
        kSubject.mean(
            "Transmitted by 4 mm of clear window glass, 550 nm, walks by chance," + at(degrees),
            "Rubin 1985; Duffie and Beckman, ch. 5",
            "",
            passed,
            on.mean_of(kWalks));
    }
}

TEST_CASE("one to four panes behind each other transmit the published shares") {
    const char* const rows[] = {"0.91832", "0.84897", "0.78936", "0.73758"};
    Scene scene;
    test::add_material(scene, test::clear_glass("silica", GlassType::kSilica));
    for (int panes = 1; panes <= 4; ++panes) {
        const float x = 0.02F * static_cast<float>(panes);
        const float to = x + 0.004F;
        scene.room.push_back(drawn_out({Vec2(x, -1), Vec2(to, -1), Vec2(to, 1), Vec2(x, 1)}, 1, 0));
        const Bench bench(scene, kAnyWavelength);
        kSubject.exact("Transmitted by " + std::to_string(panes) + " solid panes, n = 1.52, at 0°",
                       kTable,
                       "",
                       rows[panes - 1],
                       split_at_pane(bench, towards_pane(0), 1.52F).on);
    }
}

TEST_CASE("6 mm of clear window glass transmit and reflect the published shares") {
    const auto n = static_cast<float>(refractive_index(GlassType::kSodaLime, 550));
    const float depth = 0.006F * window_absorption_curve(Tint::kClear).at(550);
    const char* const rows[][3] = {{"0", "0.8897", "0.0806"},
                                   {"30", "0.8859", "0.0828"},
                                   {"60", "0.8112", "0.1530"},
                                   {"75", "0.5872", "0.3752"}};
    for (const auto& [degrees, passed, reflected_share] : rows) {
        const PaneShares shares = thin_pane(n, depth, std::stod(degrees));
        const std::string glass = " 6 mm of clear window glass, 550 nm,";
        kSubject.exact("Transmitted by" + glass + at(degrees),
                       "Rubin 1985; Duffie and Beckman, ch. 5",
                       "",
                       passed,
                       shares.transmitted[0]);
        kSubject.exact("Reflected by" + glass + at(degrees),
                       "Rubin 1985; Duffie and Beckman, ch. 5",
                       "",
                       reflected_share,
                       shares.reflected[0]);
    }
    const std::pair<float, const char*> inside[] = {
        {450, "0.96826"}, {550, "0.97029"}, {650, "0.90746"}};
    for (const auto& [nm, passed] : inside) {
        const Spectrum alpha(window_absorption_curve(Tint::kClear).at(nm));
        kSubject.exact(
            "Internal transmittance of 6 mm of clear window glass, " + figure(nm) + " nm",
            "Rubin 1985",
            "",
            passed,
            transmittance(alpha, 0.006F)[0]);
    }
}

TEST_CASE("a walk loses the published share in a known length of glass or water") {
    struct Row {
        GlassType glass;
        const char* what;
        float thickness;  // m
        double nm, degrees;
        const char* absorption;  // per mm
        const char* source;
    };
    const char* const iron = "low-iron soda-lime, Rubin 1985";
    const char* const crown = "crown 517-642, Polyanskiy 2024";
    const char* const sea = "Hale and Querry 1973";
    for (const Row& row :
         {Row{GlassType::kSodaLime, "100 mm of soda-lime", 0.1F, 440, 0, "0.00146", iron},
          Row{GlassType::kSodaLime, "100 mm of soda-lime", 0.1F, 500, 0, "0.00082", iron},
          Row{GlassType::kSodaLime, "100 mm of soda-lime", 0.1F, 600, 0, "0.00228", iron},
          Row{GlassType::kSodaLime, "100 mm of soda-lime", 0.1F, 700, 0, "0.00497", iron},
          Row{GlassType::kSodaLime, "100 mm of soda-lime", 0.1F, 700, 60, "0.00497", iron},
          Row{GlassType::kBorosilicate, "100 mm of borosilicate", 0.1F, 440, 0, "0.00031", crown},
          Row{GlassType::kBorosilicate, "100 mm of borosilicate", 0.1F, 660, 0, "0.00024", crown},
          Row{GlassType::kWater, "1 m of water", 1, 500, 0, "0.000025", sea},
          Row{GlassType::kWater, "1 m of water", 1, 600, 0, "0.000228", sea},
          Row{GlassType::kWater, "1 m of water", 1, 700, 0, "0.000601", sea}}) {
        Scene scene = pane_scene(row.thickness);
        scene.materials[0].glass = row.glass;
        const Bench bench(scene, row.nm);
        const glm::dvec3 direction = heading(row.degrees);
        const Walk walk = Bench::walk(Point(-2.0 * direction), direction);
        const auto passage = pass_through(bench, walk, kCatalogueIndex);
        REQUIRE(passage.has_value());
        const double length_mm = 1e3 * glm::length(glm::dvec3(passage->exit - passage->entry));
        kSubject.exact("Absorption along a ray through " + std::string(row.what) + ", " +
                           figure(row.nm) + " nm, met at " + figure(row.degrees) + "°",
                       row.source,
                       "1/mm",
                       row.absorption,
                       -std::log(passage->transmittance) / length_mm);
    }
}

// s = t sin i (1 - cos i / sqrt(n² - sin² i)).
TEST_CASE("a plate of 10 mm shifts rays sideways by the published lengths without turning them") {
    const Bench bench(pane_scene(0.01F, 0.05F), kAnyWavelength);
    // A walk continues at a small distance behind a surface, so that it does not meet it again.
    const Allowance off_surface{1e-4, "a walk continues 0.1 µm behind each surface"};
    const char* const source = "Hecht, Optics";
    const char* const rows[][2] = {
        {"10", "0.6040"}, {"30", "1.9834"}, {"45", "3.3550"}, {"60", "5.1938"}, {"75", "7.5291"}};
    for (const auto& [degrees, shift] : rows) {
        const glm::dvec3 direction = heading(std::stod(degrees));
        const auto passage = pass_through(bench, towards_pane(std::stod(degrees)), 1.52F);
        REQUIRE(passage.has_value());
        const glm::dvec3 across = glm::cross(glm::dvec3(passage->exit - passage->entry), direction);
        kSubject.exact("Shift by a plate of 10 mm, n = 1.52," + at(degrees),
                       source,
                       "mm",
                       shift,
                       1e3 * glm::length(across),
                       off_surface);
        kSubject.exact("Turn by a plate" + at(degrees),
                       source,
                       "°",
                       "0.0000",
                       degrees_between(passage->direction, direction));
    }
}

// t (1 - 1/n) for rays near the axis. A ray at the angle i moves the focus by s/sin i, which at 1°
// is still larger by 1.5e-4 of it.
TEST_CASE("a plate of 10 mm moves a focus back by the published length") {
    const Bench bench(pane_scene(0.01F, 0.05F), kAnyWavelength);
    const auto passage = pass_through(bench, towards_pane(1), 1.52F);
    REQUIRE(passage.has_value());
    const glm::dvec3 across = glm::cross(glm::dvec3(passage->exit - passage->entry), heading(1));
    const Allowance small_angle{6e-4,
                                "a ray of 1°, and a walk continues 0.1 µm behind each surface"};
    kSubject.exact("Focus moved back by a plate of 10 mm, n = 1.52",
                   "Hecht, Optics",
                   "mm",
                   "3.4211",
                   1e3 * glm::length(across) / heading(1).y,
                   small_angle);
}

}  // namespace pane_test
