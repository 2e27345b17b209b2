#include "geometry/make_housing.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "geometry/mesh_measure.h"
#include "scene/models/check_mesh.h"

namespace dapple {

namespace {

Fixture fixture(FixtureForm form, const Vec3& axis) {
    Fixture made;
    made.form = form;
    made.position = Point(0.5F, 1, -2);
    made.axis = glm::normalize(axis);
    made.source_diameter = 0.012F;
    made.panel_size = Vec2(0.3F, 0.2F);
    made.housing_diameter = 0.11F;
    made.housing_length = 0.18F;
    return made;
}

std::vector<Fixture> housed_fixtures() {
    std::vector<Fixture> all;
    for (const FixtureForm form : {FixtureForm::kSpot, FixtureForm::kBare, FixtureForm::kPanel}) {
        for (const Vec3& axis : {Vec3(0, 0, -1), Vec3(0, -1, 0), Vec3(1, -0.5F, 0.2F)}) {
            all.push_back(fixture(form, axis));
        }
    }
    return all;
}

}  // namespace

TEST_CASE("a housing is a closed body of its size a little behind the source") {
    for (const Fixture& lamp : housed_fixtures()) {
        const Mesh mesh = make_housing(lamp, 2);
        const EdgeReport edges = check_edges(mesh);
        CHECK(edges.open == 0);
        CHECK(edges.twisted == 0);
        const bool panel = lamp.form == FixtureForm::kPanel;
        // A can of 64 sides: 1 - (2π/64)²/6 of the circle.
        const double front = panel ? 0.32 * 0.22 : kPi / 4 * 0.11 * 0.11 * 0.9984;
        CHECK(signed_volume(mesh) == doctest::Approx(front * 0.18).epsilon(1e-4));

        float nearest = kInfinity;
        float farthest = 0;
        for (const Point& p : mesh.positions) {
            const float behind = glm::dot(lamp.position - p, lamp.axis);
            nearest = std::min(nearest, behind);
            farthest = std::max(farthest, behind);
        }
        const float gap = lamp.form == FixtureForm::kBare ? 0.007F : 0.0005F;
        CHECK(nearest == doctest::Approx(gap).epsilon(2e-3));  // floats near 2: 0.5 µm
        CHECK(farthest == doctest::Approx(gap + 0.18F).epsilon(1e-4));
        CHECK(mesh.materials == std::vector<MaterialId>(mesh.triangles.size(), 2));
    }
}

TEST_CASE("a housing's caps are flat, a can's side is smooth, a box has sharp edges") {
    for (const Fixture& lamp : housed_fixtures()) {
        const Mesh mesh = make_housing(lamp);
        // Half the angle between two of a can's 64 facets, plus the rounding of floats near 2.
        const double most = lamp.form == FixtureForm::kPanel ? 1e-4 : kPi / 64 + 1e-3;
        for (const glm::uvec3& t : mesh.triangles) {
            const MeshTriangle facet(mesh, t);
            for (const glm::dvec3& n : facet.normal) {
                CHECK(glm::length(n) == doctest::Approx(1).epsilon(1e-6));
                CHECK(angle_between(facet.cross(), n) < most);
                if (std::abs(glm::dot(n, glm::dvec3(lamp.axis))) > 0.5) {
                    CHECK(angle_between(facet.cross(), n) < 1e-3);
                }
            }
        }
    }
}

TEST_CASE("no housing where its diameter is 0, and 30 mm where its length is left out") {
    Fixture lamp = fixture(FixtureForm::kPanel, Vec3(0, 0, -1));
    lamp.housing_length = 0;
    const Bounds box = bounds_of(make_housing(lamp));
    CHECK(box.high.z - box.low.z == doctest::Approx(0.03F).epsilon(1e-4));
    lamp.housing_diameter = 0;
    CHECK(make_housing(lamp).triangles.empty());
}

}  // namespace dapple
