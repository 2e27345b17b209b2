#include "geometry/lamp_faces.h"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <optional>
#include <utility>
#include <vector>

#include "base/random.h"
#include "geometry/world.h"

namespace dapple {

namespace {

// More than are tested at once, of all forms, in a room of 6 m.
std::vector<Fixture> many_lamps() {
    RandomStream random(1, 0, 0, Purpose::kCameraWalk);
    const auto number = [&] { return 2.0F * random.next() - 1.0F; };
    std::vector<Fixture> lamps;
    for (int i = 0; i < 33; ++i) {
        Fixture& lamp = lamps.emplace_back();
        lamp.form = std::array{FixtureForm::kSpot,
                               FixtureForm::kBare,
                               FixtureForm::kPanel}[static_cast<size_t>(i % 3)];
        lamp.position = 3.0F * Point(number(), number(), number());
        lamp.axis = glm::normalize(Vec3(number(), number(), number()));
        lamp.turn = number();
        lamp.source_diameter = 0.3F + 0.2F * number();
        lamp.panel_size = Vec2(0.6F + 0.4F * number(), 0.6F + 0.4F * number());
    }
    return lamps;
}

// The distance to the first meeting after `t_min`, in double precision.
std::optional<double> distance_to(const Fixture& lamp, const Ray& ray) {
    const glm::dvec3 from = glm::dvec3(ray.origin) - glm::dvec3(lamp.position);
    // Of unit length in floats only.
    const glm::dvec3 d = glm::normalize(glm::dvec3(ray.direction));
    const double radius = 0.5 * static_cast<double>(lamp.source_diameter);
    if (lamp.form == FixtureForm::kBare) {
        const double b = glm::dot(from, d);
        const double root2 = b * b - glm::dot(from, from) + radius * radius;
        if (root2 < 0) return std::nullopt;
        const double front = -b - std::sqrt(root2);
        const double t = front >= 0 ? front : -b + std::sqrt(root2);
        return t >= 0 ? std::optional(t) : std::nullopt;
    }
    const Frame frame = fixture_frame(lamp);
    const glm::dvec3 n(lamp.axis);
    const double t = -glm::dot(from, n) / glm::dot(d, n);
    const glm::dvec3 met = from + t * d;
    const double a = glm::dot(met, glm::dvec3(frame.s));
    const double b = glm::dot(met, glm::dvec3(frame.t));
    const bool inside = lamp.form == FixtureForm::kPanel
                            ? std::abs(a) <= 0.5 * static_cast<double>(lamp.panel_size.x) &&
                                  std::abs(b) <= 0.5 * static_cast<double>(lamp.panel_size.y)
                            : a * a + b * b <= radius * radius;
    return t >= 0 && inside ? std::optional(t) : std::nullopt;
}

// The lamp that the ray meets first, and where.
std::pair<int, double> first_of(const std::vector<Fixture>& lamps, const Ray& ray) {
    std::pair<int, double> first{-1, 1e30};
    for (size_t i = 0; i < lamps.size(); ++i) {
        const std::optional<double> t = distance_to(lamps[i], ray);
        if (t && *t < first.second) first = {static_cast<int>(i), *t};
    }
    return first;
}

}  // namespace

TEST_CASE("a ray meets the nearest of many lamp faces where the formulas say") {
    constexpr int kRays = 100000;
    const std::vector<Fixture> lamps = many_lamps();
    LampFaces faces;
    for (size_t i = 0; i < lamps.size(); ++i) {
        REQUIRE(faces.add(static_cast<uint32_t>(i), lamps[i]));
    }
    RandomStream random(2, 0, 0, Purpose::kCameraWalk);
    const auto number = [&] { return 2.0F * random.next() - 1.0F; };
    int met = 0;
    int disagree = 0;
    for (int i = 0; i < kRays; ++i) {
        Ray ray;
        ray.origin = 3.0F * Point(number(), number(), number());
        ray.direction = glm::normalize(Vec3(number(), number(), number()));
        const auto [lamp, t] = first_of(lamps, ray);
        Hit hit;
        const bool is_hit = faces.closest(ray, kInfinity, hit);
        CHECK(faces.blocked(ray) == is_hit);
        // At the rim of a face floats may decide otherwise.
        if (is_hit != (lamp >= 0) || (is_hit && hit.body != static_cast<uint32_t>(lamp))) {
            ++disagree;
            continue;
        }
        if (!is_hit) continue;
        ++met;
        // Floats: a few units in the last place of 10 m, over the cosine with a flat face.
        const Normal normal = glm::normalize(hit.normal);
        const float cosine = std::abs(glm::dot(normal, ray.direction));
        CHECK(std::abs(hit.t - static_cast<float>(t)) < 4e-6F / (cosine + 1e-3F));
        // Faces end where the ray ends, and a ray that ends before them meets nothing.
        CHECK(!faces.closest(ray, 0.999F * hit.t - 1e-4F, hit));
    }
    CHECK(met > kRays / 50);
    CHECK(disagree < kRays / 10000);
}

TEST_CASE("the outer side of a lamp's face is the side that it shines to") {
    for (const FixtureForm form : {FixtureForm::kSpot, FixtureForm::kPanel, FixtureForm::kBare}) {
        CAPTURE(static_cast<int>(form));
        Fixture lamp;
        lamp.form = form;
        lamp.axis = glm::normalize(Vec3(1, 2, 3));
        lamp.source_diameter = 0.1F;
        lamp.panel_size = Vec2(0.1F);
        LampFaces faces;
        REQUIRE(faces.add(7, lamp));
        const Ray towards{lamp.position + lamp.axis, -lamp.axis};
        Hit hit;
        REQUIRE(faces.closest(towards, kInfinity, hit));
        CHECK(hit.body == 7);
        CHECK(glm::dot(glm::normalize(hit.normal), lamp.axis) > 0.9999F);
        // A flat face is met from behind as well.
        const Ray from_behind{lamp.position - lamp.axis, lamp.axis};
        CHECK(faces.blocked(from_behind));
    }
}

TEST_CASE("no ray meets a lamp that is a point") {
    Fixture lamp;
    lamp.source_diameter = 0;
    LampFaces faces;
    CHECK(!faces.add(0, lamp));
    CHECK(!faces.blocked(Ray{lamp.position - lamp.axis, lamp.axis}));
}

TEST_CASE("a lamp's face hides what is behind it and is hidden by what is before it") {
    Scene scene;
    scene.materials.emplace_back();
    Mesh wall;  // the plane z = 0
    wall.positions = {Point(-1, -1, 0), Point(3, -1, 0), Point(-1, 3, 0)};
    wall.triangles = {glm::uvec3(0, 1, 2)};
    wall.materials = {0};
    scene.room.push_back(wall);
    Fixture lamp;
    lamp.form = FixtureForm::kBare;
    lamp.position = Point(0, 0, 1);
    lamp.source_diameter = 0.2F;
    scene.fixtures.push_back(lamp);
    const World world(scene);
    const auto lamp_met_from = [&](float z) {
        const Ray ray{Point(0, 0.01F, z), Direction(0, 0, z > 0 ? -1 : 1)};
        Hit hit;
        REQUIRE(world.closest(ray, hit));
        return world.surface_at(ray, hit).lamp;
    };
    CHECK(lamp_met_from(3) == 0);
    CHECK(lamp_met_from(-1) == -1);
    CHECK(world.blocked(Ray{Point(0, 0, 3), Direction(0, 0, -1), 0, 1.95F}));
    CHECK(!world.blocked(Ray{Point(0, 0, 3), Direction(0, 0, -1), 0, 1.85F}));
}

}  // namespace dapple
