#include "geometry/make_board.h"

#include <doctest/doctest.h>

#include "geometry/mesh_measure.h"

namespace dapple {

namespace {

std::vector<Board> boards() {
    std::vector<Board> all;
    for (const Vec3& facing : {Vec3(0, 0, 1), Vec3(0, 1, 0), Vec3(0, -1, 0), Vec3(1, -2, 0.5F)}) {
        for (const bool round : {false, true}) {
            Board board;
            board.centre = Point(1, 2, -3);
            board.facing = glm::normalize(facing);
            board.size = Vec2(0.9F, 0.6F);
            board.round = round;
            board.material = 5;
            all.push_back(board);
        }
    }
    return all;
}

double area(const Mesh& mesh) {
    double sum = 0;
    for (const glm::uvec3& t : mesh.triangles)
        sum += 0.5 * glm::length(MeshTriangle(mesh, t).cross());
    return sum;
}

}  // namespace

TEST_CASE("a board faces its direction and has the area of its rectangle or disc") {
    for (const Board& board : boards()) {
        const glm::dvec3 facing(board.facing);
        const Mesh mesh = make_board(board);
        CHECK(mesh.triangles.size() == (board.round ? 96 : 2));
        // A polygon of 96 sides has 1 - (2π/96)²/6 = 0.9993 of its circle.
        const double expected = board.round ? kPi / 4 * 0.81 * 0.99929 : 0.54;
        CHECK(area(mesh) == doctest::Approx(expected).epsilon(1e-5));  // floats near 3
        for (const glm::uvec3& t : mesh.triangles) {
            const MeshTriangle facet(mesh, t);
            CHECK(angle_between(facet.cross(), facing) < 1e-4);  // floats near 3
            for (const glm::dvec3& n : facet.normal) CHECK(angle_between(n, facing) < 1e-6);
        }
        CHECK(glm::length(bounds_of(mesh).centre() - board.centre) < 1e-6F);
        CHECK(mesh.materials == std::vector<MaterialId>(mesh.triangles.size(), 5));
    }
}

TEST_CASE("width is level, height upright, and uv starts at the lower left of the front") {
    Board board;
    board.facing = Direction(0, 0, 1);
    board.size = Vec2(0.4F, 0.2F);
    const Mesh mesh = make_board(board);
    for (size_t i = 0; i < 4; ++i) {
        // Seen from +z, x runs to the right.
        CHECK(mesh.positions[i].x == doctest::Approx((mesh.uvs[i].x - 0.5F) * 0.4F));
        CHECK(mesh.positions[i].y == doctest::Approx((mesh.uvs[i].y - 0.5F) * 0.2F));
    }
    CHECK(mesh.uvs[0] == Vec2(0, 0));
    CHECK(mesh.uvs[2] == Vec2(1, 1));
}

}  // namespace dapple
