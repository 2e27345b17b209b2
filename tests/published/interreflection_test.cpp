// Light between the walls of a cube of one reflectance with a lamp at its centre.
//
// CIE 171:2006, case 5.8 style. The figures are recomputed; they are not the report's own. The mean
// over all walls of a closed room is exactly E = (Φ/S) ρ/(1-ρ); at one place E differs from the
// mean. The figures at a wall's centre are from a radiosity solution with exact point-to-patch
// factors, of 48 and 96 patches a side, extrapolated.
#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "base/units.h"
#include "published/meter_sets.h"

namespace interreflection_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Light between the walls of a cube");

const std::string kAverage = "(Φ/S) ρ/(1-ρ): CIE 171:2006, case 5.8 style, recomputed";
const std::string kSeries = "(Φ/S) ρ (1-ρ^k)/(1-ρ): geometric series of the bounces";
const std::string kRadiosity = "radiosity with exact factors, extrapolated, recomputed";

const Vec3 kHalf(2);  // a cube of 4 m
constexpr double kLumens = 10000;
constexpr double kDirect = kLumens / 96;                     // lx, mean over all walls
constexpr double kDirectAtCentre = kLumens / (4 * kPi * 4);  // lx, 2 m from the lamp

Scene cube(float reflectance) {
    Scene scene = box_scene(kHalf, reflectance);
    scene.fixtures = {point_lamp(Point(0), kLumens)};
    return scene;
}

// Mean over all walls, without the lamp's direct light.
Estimate mean_indirect(float reflectance, const MeterOptions& options) {
    Scene scene = cube(reflectance);
    scene.meters = face_meters(kHalf);
    const Readings readings(scene, options);
    std::vector<Weighted> sixth;
    for (size_t i = 0; i < scene.meters.size(); ++i) sixth.push_back({i, 1.0 / 6});
    return scaled(readings.sum(sixth), 1, -kDirect);
}

// At the centre of the floor, less the lamp's direct light, which is exact there.
Estimate indirect_at_centre(float reflectance, const MeterOptions& options) {
    Scene scene = cube(reflectance);
    scene.meters = {point_meter(Point(0, kOffWall - kHalf.y, 0), Direction(0, 1, 0))};
    const double distance = kHalf.y - kOffWall;
    return scaled(Readings(scene, options).lux(0), 1, -kDirectAtCentre * 4 / (distance * distance));
}

std::string rho(double reflectance) {
    return "reflectance " + figure(reflectance);
}

}  // namespace

TEST_CASE("the mean indirect light on a cube's walls is that of the closed formula") {
    const struct {
        float reflectance;
        const char* lux;
    } rows[] = {{0.20F, "26.042"}, {0.50F, "104.167"}, {0.80F, "416.667"}};
    for (const auto& row : rows) {
        MeterOptions options;
        options.meter_walks = 256;
        kSubject.mean("mean over the walls, " + rho(row.reflectance),
                      kAverage,
                      "lx",
                      row.lux,
                      mean_indirect(row.reflectance, options));
    }
}

TEST_CASE("the mean indirect light is right from black to nearly white walls" *
          doctest::test_suite("slow")) {
    const struct {
        float reflectance;
        const char* lux;
        int walks;
    } rows[] = {{0.05F, "5.482", 2048},
                {0.10F, "11.574", 1024},
                {0.15F, "18.382", 1024},
                {0.25F, "34.722", 512},
                {0.30F, "44.643", 512},
                {0.35F, "56.090", 512},
                {0.40F, "69.444", 512},
                {0.45F, "85.227", 512},
                {0.55F, "127.315", 512},
                {0.60F, "156.250", 512},
                {0.65F, "193.452", 512},
                {0.70F, "243.056", 512},
                {0.75F, "312.500", 512},
                {0.85F, "590.278", 512},
                {0.90F, "937.500", 512},
                {0.95F, "1979.167", 512}};
    for (const auto& row : rows) {
        MeterOptions options;
        options.meter_walks = row.walks;
        kSubject.mean("mean over the walls, " + rho(row.reflectance),
                      kAverage,
                      "lx",
                      row.lux,
                      mean_indirect(row.reflectance, options));
    }
}

TEST_CASE("at the centre of a wall there is more indirect light than the mean") {
    const struct {
        float reflectance;
        const char* lux;
    } rows[] = {
        {0.1F, "12.948"}, {0.2F, "28.879"}, {0.5F, "112.041"}, {0.8F, "430.97"}, {0.9F, "954.40"}};
    for (const auto& row : rows) {
        MeterOptions options;
        options.meter_walks = 1024;
        kSubject.mean(
            "centre of a wall, " + rho(row.reflectance),
            kRadiosity,
            "lx",
            row.lux,
            indirect_at_centre(row.reflectance, options),
            {0.003, {3e-4 * std::stod(row.lux), "the radiosity solution is known to 0.03 %"}});
    }
}

TEST_CASE("black walls have only direct light") {
    const Estimate none = indirect_at_centre(0, MeterOptions{});
    kSubject.exact("direct light at the centre of a wall",
                   "Φ/(4π d²)",
                   "lx",
                   "198.944",
                   none.value + kDirectAtCentre);
}

// A limit of k allows paths with k scattering surfaces and k + 1 edges, so that whole bounces are
// cut off, whichever walks find them.
TEST_CASE("a limit of k bounces leaves 1 - ρ^k of the mean indirect light" *
          doctest::test_suite("slow")) {
    const struct {
        float reflectance;
        int bounces;
        const char* share;
    } rows[] = {{0.5F, 1, "0.50000"},
                {0.5F, 2, "0.75000"},
                {0.5F, 4, "0.93750"},
                {0.5F, 8, "0.99609"},
                {0.8F, 4, "0.59040"},
                {0.8F, 8, "0.83223"},
                {0.8F, 16, "0.97185"}};
    for (const auto& row : rows) {
        MeterOptions options;
        options.meter_walks = 512;
        options.max_bounces = row.bounces;
        const double all = kDirect * row.reflectance / (1 - row.reflectance);
        kSubject.mean(figure(row.bounces) + " bounces, " + rho(row.reflectance),
                      kSeries,
                      "",
                      row.share,
                      scaled(mean_indirect(row.reflectance, options), 1 / all));
    }
}

}  // namespace interreflection_test
