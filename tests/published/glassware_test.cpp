// Common glassware: a rod, a jar of water, ribs, tinted panes.
#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "materials/glass_catalogue.h"
#include "published/ball_rays.h"
#include "published/published.h"
#include "render/render_frame.h"

namespace glassware_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Glassware");
constexpr double kLineD = 587.56;  // nm

Scene scene_of(GlassForm form, float height, float diameter, float wall, GlassType glass) {
    Scene scene;
    GlassObject object;
    object.form = form;
    object.position = Point(0, -0.5F * height, 0);
    object.height = height;
    object.diameter = diameter;
    object.wall = wall;
    object.material = test::add_material(scene, test::clear_glass("glass", glass));
    scene.materials.back().priority = 10;
    scene.glasses.push_back(object);
    return scene;
}

// Transmittance of one surface at normal incidence (Fresnel).
double passes(double n1, double n2) {
    const double r = (n1 - n2) / (n1 + n2);
    return 1 - r * r;
}

// The share of light that is refracted at each of `surfaces` surfaces.
double straight_through(const Bench& bench, Walk walk, int surfaces) {
    double share = 1;
    Vertex vertex;
    for (int i = 0; i < surfaces; ++i) {
        REQUIRE(find_vertex(bench, walk, kCatalogueIndex, vertex));
        share *= go_on(bench, walk, vertex, Choice::kRefract);
    }
    CHECK_FALSE(find_vertex(bench, walk, kCatalogueIndex, vertex));
    return share;
}

// The light along x on a wall lit through a jar from a lamp on the jar's axis, divided by that
// without the jar.
std::vector<double> stripes(int ribs, float distance) {
    constexpr int kWidth = 240;
    constexpr int kHeight = 12;
    Scene scene = scene_of(GlassForm::kJar, 0.3F, 0.12F, 0.003F, GlassType::kSodaLime);
    GlassObject& jar = scene.glasses[0];
    jar.surface = GlassSurface::kRibbed;
    jar.ribs = ribs;
    jar.relief_depth = 0.0072F / static_cast<float>(ribs);  // so shallow that no rib's rays cross
    const MaterialId black = test::add_material(scene, test::lambertian("black", 0));
    const MaterialId white = test::add_material(scene, test::lambertian("white", 0.8F));
    scene.room.push_back(
        test::box_room(Vec3(4, 2, distance), {black, black, black, black, white, black}));
    scene.fixtures.push_back(
        test::fixture_of(FixtureForm::kBare, Point(0, 0, 0), Point(0, 0, -1), 1000));
    scene.fixtures[0].source_diameter = 0.004F;
    scene.camera =
        test::camera_at(Point(0, 0, 0.9F * distance), Point(0, 0, -distance), kWidth, kHeight);
    scene.camera.position.y = 0.4F;
    // The frame's width is seen from the jar under 80°.
    const double half = distance * std::tan(radians_from_degrees(40));
    scene.camera.focal_length = static_cast<float>(0.018 * 1.9 * distance / half);
    RenderOptions options;
    options.passes = 6;
    options.light_walks_per_pixel = 8;
    options.footprint_px = 0;
    const auto profile = [&] {
        const RenderResult result = render_frame(scene, World(scene), options);
        std::vector<double> sums(kWidth, 0.0);
        for (int i = 0; i < kWidth * kHeight; ++i) {
            sums[static_cast<size_t>(i % kWidth)] += result.film.resolve(i).y;
        }
        return sums;
    };
    std::vector<double> lit = profile();
    scene.glasses.clear();
    const std::vector<double> plain = profile();
    for (size_t i = 0; i < lit.size(); ++i) lit[i] /= plain[i];
    return lit;
}

// The number of stripes around the whole jar: the strongest Fourier component over the angle from
// the jar, to a tenth of a stripe.
double stripes_round(const std::vector<double>& lit) {
    const auto width = static_cast<double>(lit.size());
    double best = 0;
    double best_strength = 0;
    for (double n = 6; n < 60; n += 0.1) {
        double re = 0;
        double im = 0;
        for (size_t i = 0; i < lit.size(); ++i) {
            const double x = (2 * (static_cast<double>(i) + 0.5) / width - 1);
            const double angle = std::atan(x * std::tan(radians_from_degrees(40)));
            const double window = 1 - x * x;
            re += window * (lit[i] - 0.85) * std::cos(n * angle);
            im += window * (lit[i] - 0.85) * std::sin(n * angle);
        }
        if (std::hypot(re, im) <= best_strength) continue;
        best_strength = std::hypot(re, im);
        best = n;
    }
    return best;
}

}  // namespace

// In the plane across its axis a rod bends rays as a ball does.
TEST_CASE("a rod of glass bends rays to a line at the published places") {
    Scene scene = scene_of(GlassForm::kRod, 0.3F, 0.1F, 0, GlassType::kSilica);
    const Bench bench(scene, kAnyWavelength);
    constexpr double kRadius = 0.05;
    const char* const source = "exact ray through a circle; Hecht, Optics";
    struct Row {
        const char* height;
        const char* crossing;
        float index;
    };
    for (const Row& row : {Row{"0.1", "1.4958", 1.5F},
                           Row{"0.3", "1.4620", 1.5F},
                           Row{"0.5", "1.3916", 1.5F},
                           Row{"0.1", "1.9946", 1.333F},
                           Row{"0.3", "1.9385", 1.333F}}) {
        const double h = std::stod(row.height);
        double sum = 0;
        constexpr int kAims = 90;
        for (int i = 0; i < kAims; ++i) {
            const double turn = radians_from_degrees(4.0 * i + 0.3);
            const glm::dvec3 along(std::cos(turn), 0, std::sin(turn));
            const glm::dvec3 aside(-along.z, 0, along.x);
            const Walk walk = Bench::walk(Point(-2 * kRadius * along + h * kRadius * aside), along);
            const auto passage = pass_through(bench, walk, row.index);
            REQUIRE(passage.has_value());
            const glm::dvec3 exit(passage->exit);
            const double slope =
                glm::dot(passage->direction, aside) / glm::dot(passage->direction, along);
            sum += (glm::dot(exit, along) - glm::dot(exit, aside) / slope) / kRadius;
        }
        kSubject.exact("Axis crossed behind a rod, n = " + figure(row.index, 4) +
                           ", ray at height " + row.height + " R",
                       source,
                       "R",
                       row.crossing,
                       sum / kAims,
                       {4e-4, "the rod's triangles are up to 10 µm inside it"});
    }
}

TEST_CASE("straight through a jar of water or oil each surface transmits Fresnel's share") {
    for (const GlassType liquid : {GlassType::kWater, GlassType::kOil}) {
        Scene scene = scene_of(GlassForm::kJar, 0.2F, 0.1F, 0.003F, GlassType::kSodaLime);
        GlassObject& jar = scene.glasses[0];
        jar.liquid = test::add_material(scene, test::clear_glass("liquid", liquid));
        scene.materials.back().priority = 5;
        jar.liquid_level = 0.9F;
        const Bench bench(scene, kLineD);
        const double glass = refractive_index(GlassType::kSodaLime, kLineD);
        const double inside = refractive_index(liquid, kLineD);
        const double expected = std::pow(passes(1, glass) * passes(glass, inside), 2);
        const Walk walk = Bench::walk(Point(-0.3F, 0.01F, 0), glm::dvec3(1, 0, 0));
        const std::string name = liquid == GlassType::kWater ? "water" : "oil";
        kSubject.exact("Air, glass, " + name + ", glass, air: share refracted straight on",
                       "Fresnel; Hecht, Optics",
                       "",
                       figure(expected),
                       straight_through(bench, walk, 4));
    }
}

TEST_CASE("a bubble in a pane adds two surfaces to air") {
    Scene scene = scene_of(GlassForm::kBall, 0.1F, 0.1F, 0, GlassType::kSodaLime);
    scene.glasses.push_back(
        test::ball_at(Point(0, -0.02F, 0),
                      0.04F,
                      test::add_material(scene, test::clear_glass("air", GlassType::kAir))));
    scene.materials.back().priority = 20;
    const Bench bench(scene, kLineD);
    const double glass = refractive_index(GlassType::kSodaLime, kLineD);
    const Walk walk = Bench::walk(Point(-0.3F, 1e-4F, 1e-4F), glm::dvec3(1, 0, 0));
    kSubject.exact("Ball of glass with a hollow in its middle: share refracted straight on",
                   "Fresnel; Hecht, Optics",
                   "",
                   figure(std::pow(passes(1, glass), 4)),
                   straight_through(bench, walk, 4));
}

// T = exp(-α d): a pane of twice the thickness transmits the square.
TEST_CASE("a tinted pane absorbs by its thickness as Beer and Lambert's law says") {
    struct Row {
        Tint tint;
        const char* name;
        double nm;
    };
    for (const Row& row : {Row{Tint::kAmber, "amber", 560},
                           Row{Tint::kGreen, "green", 540},
                           Row{Tint::kCobalt, "cobalt", 480}}) {
        const double alpha =
            absorption_curve(GlassType::kSodaLime, row.tint).at(static_cast<float>(row.nm));
        for (const double mm : {3.0, 6.0}) {
            Scene scene = pane_scene(static_cast<float>(1e-3 * mm), 0.03F);
            scene.materials[0].tint = row.tint;
            const Bench bench(scene, row.nm);
            const auto passage =
                pass_through(bench,
                             Bench::walk(Point(-0.1F, 0.002F, 0.001F), glm::dvec3(1, 0, 0)),
                             kCatalogueIndex);
            REQUIRE(passage.has_value());
            kSubject.exact(figure(mm) + " mm of " + row.name + " glass at " + figure(row.nm) +
                               " nm: internal transmittance",
                           "Beer and Lambert; absorption a model of our own",
                           "",
                           figure(std::exp(-alpha * 1e-3 * mm)),
                           passage->transmittance,
                           {5e-5, "a walk begins 0.1 µm off the surface that it leaves"});
        }
    }
}

// Seen from the jar's axis there are as many stripes as ribs at any distance. So the width of a
// stripe on the wall is proportional to the distance.
TEST_CASE("a ribbed jar makes as many stripes as it has ribs, at any distance" *
          doctest::test_suite("slow")) {
    const std::pair<int, float> jars[] = {{24, 1.0F}, {24, 2.0F}, {16, 1.0F}};
    for (const auto& [ribs, distance] : jars) {
        kSubject.exact("stripes round a jar of " + std::to_string(ribs) + " ribs, on a wall " +
                           figure(distance) + " m away",
                       "common practice, no source; by symmetry",
                       "",
                       std::to_string(ribs),
                       stripes_round(stripes(ribs, distance)),
                       {0.5, "an arc of 80° shows few periods"});
    }
}

}  // namespace glassware_test
