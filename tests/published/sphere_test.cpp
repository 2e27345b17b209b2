// The integrating sphere: a hollow ball of one reflectance, with and without a port.
//
//   E = Φ/A k,  k = ρ / (1 - ρ (1 - f)),  f the share of the port              (from memory)
// E is the illuminance of the wall by light from the wall. It is the same everywhere, wherever the
// light enters. A small surface anywhere inside that sees an evenly lit wall has the same E.
//
// The ball is made of flat facets, 2 · kRings by kRings of them, widened so that their area is that
// of the sphere, which makes Φ/A right. Their tilt to the sphere's wall remains; it changes the
// light locally by (π/kRings)²/8, less than 0.01 %. The meters are 0.1 mm off the wall; so the one
// in the port sees 0.02 % more of the wall.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include "base/units.h"
#include "published/meter_sets.h"
#include "render/test_scenes.h"

namespace sphere_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Integrating sphere");

const std::string kFormula = "Φ/A ρ/(1 - ρ (1 - f)), integrating sphere (from memory)";

constexpr int kRings = 128;
constexpr double kRadius = 0.5;  // m
constexpr double kLumens = 1000;

// The middles of facets are up to 0.06 mm inside the sphere.
constexpr float kMeterRadius = 0.4999F;

// The angles from +y between the rings of the wall; one of them is the port's edge.
std::vector<double> ring_angles(double port) {
    const double edge = std::acos(1 - 2 * port);
    std::vector<double> angles;
    const int inside = port > 0 ? std::max(1, static_cast<int>(kRings * edge / kPi + 0.5)) : 0;
    for (int i = 0; i < inside; ++i) angles.push_back(edge * i / inside);
    for (int i = 0; i <= kRings - inside; ++i) {
        angles.push_back(edge + (kPi - edge) * i / (kRings - inside));
    }
    return angles;
}

double area_of(const Mesh& mesh) {
    double area = 0;
    for (const glm::uvec3& t : mesh.triangles) {
        const glm::dvec3 a(mesh.positions[t.x]);
        area += 0.5 * glm::length(glm::cross(glm::dvec3(mesh.positions[t.y]) - a,
                                             glm::dvec3(mesh.positions[t.z]) - a));
    }
    return area;
}

// The port is a black cap around +y.
Mesh hollow_ball(double port, MaterialId wall) {
    Mesh mesh;
    const std::vector<double> angles = ring_angles(port);
    const auto at = [&](size_t ring, int segment) {
        const double phi = kPi * segment / kRings;
        return Point(glm::dvec3(std::sin(angles[ring]) * std::cos(phi),
                                std::cos(angles[ring]),
                                std::sin(angles[ring]) * std::sin(phi)));
    };
    const double edge = std::acos(1 - 2 * port);
    for (size_t r = 0; r + 1 < angles.size(); ++r) {
        const MaterialId material = angles[r] < edge - 1e-9 ? kNoMaterial : wall;
        for (int s = 0; s < 2 * kRings; ++s) {
            test::add_quad(mesh, at(r, s), at(r, s + 1), at(r + 1, s + 1), at(r + 1, s), material);
        }
    }
    const double scale = kRadius * std::sqrt(4 * kPi / area_of(mesh));
    for (Point& p : mesh.positions) p *= static_cast<float>(scale);
    return mesh;
}

Scene sphere(double reflectance, double port, const Fixture& lamp) {
    Scene scene;
    const MaterialId wall =
        test::add_material(scene, test::lambertian("wall", static_cast<float>(reflectance)));
    scene.room.push_back(hollow_ball(port, wall));
    scene.fixtures = {lamp};
    return scene;
}

// All of its light first reaches the wall around -y, far from the port.
Fixture downward_spot() {
    Fixture f = test::fixture_of(FixtureForm::kSpot, Point(0), Point(0, -1, 0), kLumens);
    f.source_diameter = 0;
    return f;
}

// Meters on the wall outside the spot's beam; the first is in the port.
std::vector<Meter> wall_meters() {
    const Direction out[] = {Direction(0.02F, 1, 0.01F),
                             Direction(1, 0.6F, 0.3F),
                             Direction(-0.8F, 0.1F, 0.5F),
                             Direction(0.3F, -0.2F, -1),
                             Direction(-0.5F, -0.5F, 0.9F)};
    std::vector<Meter> meters;
    for (const Direction& to : out) {
        const Direction outward = glm::normalize(to);
        meters.push_back(point_meter(kMeterRadius * outward, -outward));
    }
    return meters;
}

struct Case {
    double reflectance, port;
    const char* lux;
    double most;  // standard error
};

void check(const Case& c, int meter_walks) {
    Scene scene = sphere(c.reflectance, c.port, downward_spot());
    scene.meters = wall_meters();
    MeterOptions options;
    options.meter_walks = meter_walks;
    // Most light arrives after many bounces, and all meters share the light walks.
    options.joined_per_meter_walk = 64;
    const Readings readings(scene, options);
    const std::string of = ", reflectance " + figure(c.reflectance) + ", port " + figure(c.port);
    const Allowance facets{3e-4 * std::stod(c.lux),
                           "flat facets, and the meters' distance from the wall: 0.03 %"};
    std::vector<Weighted> all;
    for (size_t i = 0; i < scene.meters.size(); ++i) {
        all.push_back({i, 1.0 / static_cast<double>(scene.meters.size())});
        kSubject.mean("place " + std::to_string(i + 1) + of,
                      kFormula,
                      "lx",
                      c.lux,
                      readings.lux(i),
                      {c.most, facets});
    }
    for (size_t i = 0; i < scene.meters.size(); ++i) {
        // The meters share their light walks, so that their differences have smaller errors than
        // the readings.
        std::vector<Weighted> over_mean;
        for (const Weighted& w : all) over_mean.push_back({w.meter, -w.weight});
        over_mean[i].weight += 1;
        kSubject.mean(
            "place " + std::to_string(i + 1) + " over their mean" + of,
            "the wall is lit alike everywhere (from memory)",
            "",
            "1.0000",
            scaled(readings.sum(over_mean), 1 / std::stod(c.lux), 1),
            {c.most, {3e-4, "flat facets, and the meters' distance from the wall: 0.03 %"}});
    }
    kSubject.mean(
        "mean of the places" + of, kFormula, "lx", c.lux, readings.sum(all), {c.most, facets});
}

}  // namespace

TEST_CASE("an integrating sphere has the illuminance of its formula everywhere on the wall") {
    for (const Case& c : {Case{0.5, 0, "318.310", 0.003}, Case{0.8, 0, "1273.240", 0.005}})
        check(c, 64);
}

TEST_CASE("white integrating spheres with and without ports have the light of their formula" *
          doctest::test_suite("slow")) {
    for (const Case& c : {Case{0.95, 0, "6047.888", 0.005},
                          Case{0.95, 0.02, "4382.527", 0.005},
                          Case{0.98, 0.05, "4520.923", 0.005}}) {
        check(c, 128);
    }
}

TEST_CASE("at the centre of an integrating sphere every orientation receives the same") {
    // With the lamp at the centre the wall is lit evenly. The meters are a hundredth of the radius
    // away from the lamp and face away from it.
    const Fixture lamp = point_lamp(Point(0), kLumens);
    Scene scene = sphere(0.8, 0, lamp);
    for (const Direction& to : {Direction(0, 1, 0),
                                Direction(0, -1, 0),
                                Direction(1, 0, 0),
                                Direction(-0.3F, 0.5F, 0.8F),
                                Direction(-0.6F, -0.5F, -0.2F)}) {
        const Direction facing = glm::normalize(to);
        scene.meters.push_back(point_meter(0.005F * facing, facing));
    }
    MeterOptions options;
    options.meter_walks = 256;
    const Readings readings(scene, options);
    for (size_t i = 0; i < scene.meters.size(); ++i) {
        kSubject.mean(
            "centre, orientation " + std::to_string(i + 1) + ", reflectance 0.8",
            kFormula,
            "lx",
            "1273.240",
            readings.lux(i),
            {0.005,
             {3e-4 * 1273.24, "flat facets, and the meters' distance from the wall: 0.03 %"}});
    }
}

}  // namespace sphere_test
