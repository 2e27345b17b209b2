// A ball of glass in parallel light: where rays cross the axis, and its focal lengths.
#include <doctest/doctest.h>

#include <cmath>

#include "published/ball_rays.h"
#include "published/published.h"

namespace ball_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Ball of glass");
const char* const kExact = "exact ray through a sphere; Hecht, Optics";
const char* const kThick = "lensmaker's formula for a ball; Hecht, Optics";

// The engine's ball has 50 mm radius. Its triangles are up to 5 µm inside the sphere along each of
// their two directions, and have the sphere's own normals. So light meets a ball that is up to 10
// µm smaller.
constexpr double kFacets = 2e-4;  // 10 µm of 50 mm
const char* const kFacetsReason = "the ball's triangles are up to 10 µm inside it";

double shift_by_facets(double h, float index) {
    const double smaller = through_sphere(h / (1 - kFacets), index).crossing();
    return std::abs((1 - kFacets) * smaller - through_sphere(h, index).crossing());
}

double mesh_crossing(const Bench& bench, const BallAim& aim, double h, float index) {
    const auto passage = pass_through(bench, towards_ball(aim, h), index);
    REQUIRE(passage.has_value());
    const glm::dvec3 exit = glm::dvec3(passage->exit) / static_cast<double>(kBallRadius);
    const double slope =
        glm::dot(passage->direction, aim.aside) / glm::dot(passage->direction, aim.along);
    return glm::dot(exit, aim.along) - glm::dot(exit, aim.aside) / slope;
}

// The mean over directions of the beam.
double mean_crossing(const Bench& bench, double h, float index) {
    constexpr int kAims = 400;
    RandomStream random(1, 0, 0, Purpose::kLightWalk);
    double sum = 0;
    for (int i = 0; i < kAims; ++i) sum += mesh_crossing(bench, aim_at_ball(random), h, index);
    return sum / kAims;
}

// The limit of a crossing at the axis, extrapolated from heights of 0.05, 0.1 and 0.15. A crossing
// is an even function of h.
template <typename Crossing>
double at_axis(Crossing crossing) {
    return 1.5 * crossing(0.05) - 0.6 * crossing(0.1) + 0.1 * crossing(0.15);
}

struct Height {
    const char* h;
    const char* crossing[3];  // radii
};
constexpr const char* kIndices[] = {"1.5", "1.52", "1.333"};
constexpr Height kHeights[] = {{"0.01", {"1.5000", "1.4615", "2.0014"}},
                               {"0.1", {"1.4958", "1.4576", "1.9946"}},
                               {"0.3", {"1.4620", "1.4255", "1.9385"}},
                               {"0.5", {"1.3916", "1.3588", "1.8207"}},
                               {"0.7", {"1.2778", "1.2514", "1.6260"}},
                               {"0.9", {"1.1044", "1.0894", "1.3103"}}};

std::string at_height(const char* index, const char* h) {
    return std::string("n = ") + index + ", ray at height " + h + " R";
}

}  // namespace

TEST_CASE("an exact sphere bends rays to the axis at the published places") {
    for (const Height& row : kHeights) {
        for (int i = 0; i < 3; ++i) {
            kSubject.exact("Axis crossed, " + at_height(kIndices[i], row.h),
                           kExact,
                           "R",
                           row.crossing[i],
                           through_sphere(std::stod(row.h), std::stof(kIndices[i])).crossing());
        }
    }
}

TEST_CASE("the engine's ball bends rays to the axis at the published places") {
    const Bench bench(ball_scene(GlassType::kSilica), kAnyWavelength);
    for (const Height& row : kHeights) {
        for (int i = 0; i < 3; ++i) {
            const double h = std::stod(row.h);
            const float n = std::stof(kIndices[i]);
            kSubject.exact("Axis crossed behind the engine's ball, mean of 400 directions, " +
                               at_height(kIndices[i], row.h),
                           kExact,
                           "R",
                           row.crossing[i],
                           mean_crossing(bench, h, n),
                           {shift_by_facets(h, n), kFacetsReason});
        }
    }
}

TEST_CASE("balls of 100 mm have the published focal lengths") {
    const char* const rows[][3] = {{"1.5", "75.000", "25.000"},
                                   {"1.5168", "73.3746", "23.3746"},
                                   {"1.52", "73.0769", "23.0769"},
                                   {"1.333", "100.0751", "50.0751"},
                                   {"1.4585", "79.5256", "29.5256"}};
    for (const auto& [index, focal, back] : rows) {
        const float n = std::stof(index);
        const double found = at_axis([n](double h) { return through_sphere(h, n).crossing(); });
        const std::string of = std::string(" of a ball of 100 mm, n = ") + index;
        kSubject.exact("Focal length" + of, kThick, "mm", focal, 50 * found);
        // Known to 1e-5 of the focal length, from which it is computed.
        kSubject.exact("Back focal length" + of,
                       kThick,
                       "mm",
                       back,
                       50 * (found - 1),
                       {1e-5 * std::stod(focal), "1e-5 of the focal length"});
    }
}

TEST_CASE("the engine's balls of silica, water and soda-lime focus by their own indices") {
    struct Row {
        GlassType glass;
        double nm;
        const char *what, *focal, *source;
    };
    for (const Row& row : {Row{GlassType::kSilica,
                               586.533,
                               "silica at 586.5 nm (n = 1.4585)",
                               "79.5256",
                               "Hecht, Optics; Malitson 1965"},
                           Row{GlassType::kWater,
                               588.866,
                               "water at 588.9 nm (n = 1.333)",
                               "100.0751",
                               "Hecht, Optics; Daimon and Masumura 2007"},
                           Row{GlassType::kSodaLime,
                               683.512,
                               "soda-lime at 683.5 nm (n = 1.52)",
                               "73.0769",
                               "Hecht, Optics; Rubin 1985"}}) {
        const Bench bench(ball_scene(row.glass), row.nm);
        const double found =
            at_axis([&](double h) { return mean_crossing(bench, h, kCatalogueIndex); });
        kSubject.exact(std::string("Focal length of the engine's ball of 100 mm of ") + row.what,
                       row.source,
                       "mm",
                       row.focal,
                       50 * found,
                       {kFacets * std::stod(row.focal), kFacetsReason});
    }
}

namespace {

// The side of a round rod along z, of 100 mm diameter, with the normals of a cylinder.
Scene rod_scene() {
    constexpr unsigned kSteps = 720;
    Scene scene;
    Mesh mesh;
    const MaterialId glass =
        test::add_material(scene, test::clear_glass("rod", GlassType::kSilica));
    for (unsigned i = 0; i < kSteps; ++i) {
        const Vec3 normal(heading(360.0 * i / kSteps));
        const unsigned next = 2 * ((i + 1) % kSteps);
        for (const float z : {-kBallRadius, kBallRadius}) {
            mesh.positions.push_back(kBallRadius * normal + Vec3(0, 0, z));
            mesh.normals.push_back(normal);
        }
        mesh.triangles.emplace_back(2 * i, next, next + 1);
        mesh.triangles.emplace_back(2 * i, next + 1, 2 * i + 1);
        mesh.materials.insert(mesh.materials.end(), 2, glass);
    }
    scene.room.push_back(mesh);
    return scene;
}

}  // namespace

TEST_CASE("a rod of 100 mm has its line focus where a ball has its focus") {
    const Bench bench(rod_scene(), kAnyWavelength);
    const BallAim across{heading(20), heading(110)};
    const std::pair<const char*, const char*> rows[] = {
        {"1.5", "75.000"}, {"1.52", "73.0769"}, {"1.333", "100.0751"}};
    for (const auto& [index, focal] : rows) {
        const float n = std::stof(index);
        const double found = at_axis([&](double h) { return mesh_crossing(bench, across, h, n); });
        kSubject.exact(std::string("Focal length of a rod of 100 mm, n = ") + index,
                       kThick,
                       "mm",
                       focal,
                       50 * found,
                       {2e-5 * std::stod(focal), "720 flat faces are up to 0.5 µm inside the rod"});
    }
}

}  // namespace ball_test
