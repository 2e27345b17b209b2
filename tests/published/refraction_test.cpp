// One surface of glass: refraction and reflectance.
#include <doctest/doctest.h>

#include <cmath>

#include "materials/glass_catalogue.h"
#include "published/published.h"
#include "published/traced.h"

namespace refraction_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Refraction at one surface");
const char* const kFresnel = "Hecht, Optics; Born and Wolf 1.5";

Direction from_normal(double degrees, double side = 1) {
    const double angle = radians_from_degrees(degrees);
    return Direction(std::sin(angle), 0, side * std::cos(angle));
}

BsdfSample sampled(float index, const Direction& wo, float u) {
    BsdfSample s;
    REQUIRE(sample(SmoothGlass{Spectrum(index)}, wo, Vec3(0, 0, u), Carrying::kFlux, s));
    return s;
}

// The chance that a walk is reflected.
double reflected_share(float index, const Direction& wo) {
    return sampled(index, wo, 0.0F).pdf;
}

// Degrees from the normal behind the surface.
double refracted_degrees(float index, const Direction& wo) {
    const BsdfSample s = sampled(index, wo, 0.99999994F);
    REQUIRE(s.transmitted);
    return degrees_from_radians(std::atan2(std::abs(s.wi.x), std::abs(s.wi.z)));
}

// The angle of least p-polarised reflectance, by ternary search.
double brewster_degrees(float index) {
    double low = 30;
    double high = 80;
    const auto p = [&](double angle) { return fresnel_polarised(from_normal(angle).z, index).p; };
    while (high - low > 1e-5) {
        const double a = low + (high - low) / 3;
        const double b = high - (high - low) / 3;
        (p(a) < p(b) ? high : low) = p(a) < p(b) ? b : a;
    }
    return 0.5 * (low + high);
}

// The largest angle at which a walk inside can leave, by bisection.
double critical_degrees(float index) {
    double low = 0;
    double high = 90;
    while (high - low > 1e-5) {
        const double middle = 0.5 * (low + high);
        const bool leaves = sampled(index, from_normal(middle, -1), 0.99999994F).transmitted;
        (leaves ? low : high) = middle;
    }
    return 0.5 * (low + high);
}

// Mean over light from a hemisphere, in even steps of sin².
double diffuse_share(float index, double side) {
    constexpr int kSteps = 200000;
    double sum = 0;
    for (int i = 0; i < kSteps; ++i) {
        const double sin2 = (i + 0.5) / kSteps;
        sum += reflected_share(index, Direction(std::sqrt(sin2), 0, side * std::sqrt(1 - sin2)));
    }
    return sum / kSteps;
}

std::string of(const char* index) {
    return std::string(" of n = ") + index;
}

}  // namespace

TEST_CASE("surfaces of every index have Fresnel's reflectance, Brewster's and critical angle") {
    const char* const rows[][4] = {{"1.333", "0.02037", "53.123", "48.607"},
                                   {"1.458", "0.03472", "55.555", "43.304"},
                                   {"1.491", "0.03885", "56.151", "42.120"},
                                   {"1.5", "0.04000", "56.310", "41.810"},
                                   {"1.5168", "0.04216", "56.604", "41.245"},
                                   {"1.52", "0.04258", "56.659", "41.140"},
                                   {"1.6", "0.05325", "57.995", "38.682"},
                                   {"1.7", "0.06722", "59.534", "36.032"}};
    for (const auto& [index, at_normal, brewster, critical] : rows) {
        const float n = std::stof(index);
        kSubject.exact("Reflectance at 0°" + of(index),
                       kFresnel,
                       "",
                       at_normal,
                       reflected_share(n, from_normal(0)));
        kSubject.exact(
            "Brewster's angle" + of(index), kFresnel, "°", brewster, brewster_degrees(n));
        kSubject.exact("Critical angle" + of(index), kFresnel, "°", critical, critical_degrees(n));
    }
}

TEST_CASE("rays enter and leave glass of 1.52 by Snell's law") {
    const char* const rows[][2] = {{"10", "6.560"},
                                   {"30", "19.205"},
                                   {"45", "27.723"},
                                   {"60", "34.733"},
                                   {"75", "39.455"},
                                   {"89", "41.132"}};
    for (const auto& [outside, inside] : rows) {
        const double angle = std::stod(outside);
        const double found = refracted_degrees(1.52F, from_normal(angle));
        kSubject.exact("Refracted from " + std::string(outside) + "° into n = 1.52",
                       "Snell's law; Hecht, Optics",
                       "°",
                       inside,
                       found);
        kSubject.exact(
            "Back out of n = 1.52 from the angle found for " + std::string(outside) + "°",
            "Snell's law; Hecht, Optics",
            "°",
            outside + std::string(".000"),
            refracted_degrees(1.52F, from_normal(found, -1)));
    }
}

TEST_CASE("glass of 1.61 reflects 0.27098 of unpolarised light at 75 degrees") {
    kSubject.exact("Reflectance of n = 1.61 at 75°",
                   kFresnel,
                   "",
                   "0.27098",
                   reflected_share(1.61F, from_normal(75)));
}

TEST_CASE("diffuse light is reflected by the published shares, from outside and from inside") {
    const char* const source = "Fresnel's formulas, averaged (Walsh 1926, from memory)";
    const char* const rows[][3] = {{"1.333", "0.06641", "0.47459"},
                                   {"1.5", "0.09178", "0.59635"},
                                   {"1.52", "0.09471", "0.60817"},
                                   {"1.6", "0.10625", "0.65088"}};
    for (const auto& [index, outside, inside] : rows) {
        const float n = std::stof(index);
        const double out = diffuse_share(n, 1);
        const double in = diffuse_share(n, -1);
        kSubject.exact("Diffuse reflectance from outside" + of(index), source, "", outside, out);
        kSubject.exact("Diffuse reflectance from inside" + of(index), source, "", inside, in);
        kSubject.exact("n² (1 - inside)/(1 - outside)" + of(index),
                       "reciprocity; Born and Wolf",
                       "",
                       "1.00000",
                       static_cast<double>(n) * n * (1 - in) / (1 - out));
        kSubject.exact("Diffuse reflectance that the materials use, from outside" + of(index),
                       source,
                       "",
                       outside,
                       diffuse_fresnel(n));
    }
}

// The legs are at -x and -y. A ray that enters along +x meets the long face from inside at 45°.
TEST_CASE("a prism of 45, 90, 45 degrees turns light by 90 degrees in glass and not in water") {
    const Bench bench(solid_scene({Vec2(-0.1F, -0.1F), Vec2(0.1F, -0.1F), Vec2(-0.1F, 0.1F)}, 0.1F),
                      kAnyWavelength);
    for (const float index : {1.52F, 1.333F}) {
        Walk walk = Bench::walk(Point(-1, -0.02F, 0), heading(0));
        Vertex vertex;
        REQUIRE(find_vertex(bench, walk, index, vertex));
        REQUIRE(go_on(bench, walk, vertex, Choice::kRefract) > 0);
        REQUIRE(find_vertex(bench, walk, index, vertex));
        const double share = go_on(bench, walk, vertex, Choice::kReflect);
        if (index == 1.52F) {
            kSubject.exact("Reflected in a prism of 45, 90, 45°, n = 1.52",
                           "total reflection; Hecht, Optics",
                           "",
                           "1.00000",
                           share);
            kSubject.exact("Direction of that light, from the way it came",
                           "Hecht, Optics",
                           "°",
                           "90.000",
                           degrees_between(glm::dvec3(walk.ray.direction), heading(0)));
        } else {
            CHECK(share < 0.2);
        }
    }
}

TEST_CASE("the catalogue's glasses have their published indices") {
    struct Row {
        GlassType glass;
        const char *name, *source;
        const char* at_lines[3];  // F, d, C
    };
    const char* const lines[] = {"F", "d", "C"};
    const double nm[] = {486.1327, 587.5618, 656.2725};
    for (const Row& row :
         {Row{GlassType::kSodaLime, "soda-lime", "Rubin 1985", {"1.52902", "1.52338", "1.52083"}},
          Row{GlassType::kBorosilicate,
              "low-expansion borosilicate",
              "dispersion formula of glass 471-654, Polyanskiy 2024",
              {"1.47642", "1.47149", "1.46928"}},
          Row{GlassType::kLeadCrystal,
              "lead crystal",
              "dispersion formula of glass 548-458, Polyanskiy 2024",
              {"1.55655", "1.54814", "1.54457"}},
          Row{GlassType::kSilica, "silica", "Malitson 1965", {"1.46313", "1.45846", "1.45637"}},
          Row{GlassType::kAcrylic,
              "acrylic",
              "Beadie et al. 2015",
              {"1.49836", "1.49253", "1.49007"}}}) {
        for (int i = 0; i < 3; ++i) {
            kSubject.exact("Index of " + std::string(row.name) + ", line " + lines[i],
                           row.source,
                           "",
                           row.at_lines[i],
                           refractive_index(row.glass, nm[i]));
        }
    }
    const std::pair<double, const char*> window[] = {
        {450, "1.53192"}, {550, "1.52514"}, {650, "1.52104"}};
    for (const auto& [at, index] : window) {
        kSubject.exact("Index of soda-lime, " + figure(at) + " nm",
                       "Rubin 1985",
                       "",
                       index,
                       refractive_index(GlassType::kSodaLime, at));
    }
}

TEST_CASE("water has its published index, against vacuum and against air") {
    const std::pair<double, const char*> rows[] = {{404.7, "1.34312"},
                                                   {486.1, "1.33749"},
                                                   {546.1, "1.33483"},
                                                   {589.3, "1.33335"},
                                                   {656.3, "1.33151"},
                                                   {700, "1.33052"}};
    constexpr double kAir = 1.000272;  // (from memory); the catalogue's index is relative to air
    for (const auto& [at, index] : rows) {
        kSubject.exact("Index of water at 20 °C against vacuum, " + figure(at) + " nm",
                       "Daimon and Masumura 2007",
                       "",
                       index,
                       refractive_index(GlassType::kWater, at) * kAir);
    }
    kSubject.exact("Index of water at 20 °C against air, 589.3 nm",
                   "Tilton and Taylor 1938 (from memory)",
                   "",
                   "1.33299",
                   refractive_index(GlassType::kWater, 589.3));
}

}  // namespace refraction_test
