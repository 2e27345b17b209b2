#include "geometry/make_column.h"

#include <doctest/doctest.h>

#include "scene/models/check_mesh.h"

using namespace dapple;

TEST_CASE("a column is a closed body of its size that stands on its base") {
    for (const bool round : {false, true}) {
        Column column;
        column.position = Point(1, 0.5F, -2);
        column.size = Vec2(0.3F, round ? 0.3F : 0.5F);
        column.round = round;
        column.height = 2.5F;
        column.material = 4;
        const Mesh mesh = make_column(column);
        const EdgeReport edges = check_edges(mesh);
        CHECK(edges.open == 0);
        CHECK(edges.twisted == 0);
        // 96 sides: 1 - (2π/96)²/6 of the circle.
        const double section = round ? kPi / 4 * 0.3 * 0.3 * 0.99929 : 0.3 * 0.5;
        CHECK(signed_volume(mesh) == doctest::Approx(2.5 * section).epsilon(1e-4));
        Bounds bounds;
        for (const Point& p : mesh.positions) bounds.add(p);
        CHECK(bounds.low.y == doctest::Approx(0.5));
        CHECK(bounds.high.y == doctest::Approx(3.0));
        CHECK(bounds.centre().x == doctest::Approx(1.0));
        CHECK(bounds.centre().z == doctest::Approx(-2.0));
        CHECK(mesh.materials == std::vector<MaterialId>(mesh.triangles.size(), 4));
        int inward = 0;
        for (const glm::uvec3& t : mesh.triangles) {
            const Point& a = mesh.positions[t.x];
            const Vec3 facet = glm::cross(mesh.positions[t.y] - a, mesh.positions[t.z] - a);
            for (int k = 0; k < 3; ++k) {
                inward += static_cast<int>(glm::dot(facet, mesh.normals[t[k]]) <= 0);
            }
        }
        CHECK(inward == 0);
    }
}
