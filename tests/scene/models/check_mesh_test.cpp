// Whether a mesh is closed, and which side is outside.
#include "scene/models/check_mesh.h"

#include <cmath>

#include "scene/models/make_mesh.h"
#include "scene/written_set.h"
#include "set/obj/read_obj.h"

using namespace dapple;

namespace {

Mesh mesh_from(const std::string& obj_text) {
    Problems problems;
    const ModelDescription obj = read_obj_text(obj_text, "test.obj", problems);
    for (const Problem& problem : problems.all()) FAIL_CHECK(to_string(problem));
    return make_mesh(obj, all_triangles(obj), {}, {0});
}

double outward_volume(const std::string& obj_text) {
    Mesh mesh = mesh_from(obj_text);
    orient_outward(mesh);
    return signed_volume(mesh);
}

const std::string kMoved = "v 10 0 0\nv 11 0 0\nv 10 1 0\nv 10 0 1\n";  // a corner far away

}  // namespace

TEST_CASE("a cube is closed and has its volume") {
    const Mesh cube = mesh_from(cube_obj());
    CHECK(problem_as_glass(cube).empty());
    CHECK(signed_volume(cube) == doctest::Approx(1));
}

TEST_CASE("a cube is closed even if its faces do not share vertices") {
    // A normal for each face gives 24 vertices.
    const Mesh cube = mesh_from("s 1\n" + cube_obj() + "vn 0 0 1\ns off\nf 1//1 2//1 3//1\n");
    CHECK(check_edges(mesh_from(cube_obj())).open == 0);
    CHECK(check_edges(cube).twisted + check_edges(cube).open >
          0);  // because of the additional triangle
    Mesh apart = mesh_from(cube_obj());
    std::vector<Point> positions;
    for (glm::uvec3& t : apart.triangles) {
        for (int k = 0; k < 3; ++k) {
            positions.push_back(apart.positions[t[k]]);
            t[k] = static_cast<uint32_t>(positions.size()) - 1;
        }
    }
    apart.positions = positions;
    CHECK(problem_as_glass(apart).empty());
}

TEST_CASE("a missing triangle leaves three open edges, reported with their place") {
    Mesh cube = mesh_from(cube_obj());
    cube.triangles.pop_back();
    const EdgeReport report = check_edges(cube);
    CHECK(report.open == 3);
    CHECK(report.twisted == 0);
    CHECK(report.first.z == doctest::Approx(0.5));  // the last face of cube_obj is at z = 1/2
}

TEST_CASE("a triangle that is turned over makes three twisted edges and no open ones") {
    Mesh cube = mesh_from(cube_obj());
    std::swap(cube.triangles[0].y, cube.triangles[0].z);
    const EdgeReport report = check_edges(cube);
    CHECK(report.open == 0);
    CHECK(report.twisted == 3);
}

TEST_CASE("two solids that touch along an edge are closed") {
    // Tetrahedra on both sides of the edge between (0, 0, 0) and (0, 1, 0).
    const std::string text =
        "v 0 0 0\nv 0 1 0\nv 1 0 0\nv 0 0 1\nv -1 0 0\nv 0 0 -1\n"
        "f 1 2 3\nf 1 4 2\nf 1 3 4\nf 2 4 3\nf 1 2 5\nf 1 6 2\nf 1 5 6\nf 2 6 5\n";
    CHECK(problem_as_glass(mesh_from(text)).empty());
}

TEST_CASE("outer shells are turned outward, hollows inward, solids in hollows outward") {
    const double hollow = 1 - std::pow(0.5, 3);
    CHECK(outward_volume(cube_obj(1, 1, false)) == doctest::Approx(1));
    CHECK(outward_volume(cube_obj(1, 1, true)) == doctest::Approx(1));
    for (const bool outer : {false, true}) {
        for (const bool inner : {false, true}) {
            const std::string shells = cube_obj(1, 1, outer) + cube_obj(9, 0.5, inner);
            CHECK(outward_volume(shells) == doctest::Approx(hollow));
            CHECK(outward_volume(shells + cube_obj(17, 0.2, outer)) ==
                  doctest::Approx(hollow + std::pow(0.2, 3)));
        }
    }
}

TEST_CASE("solids beside each other are both turned outward") {
    const std::string faces = "f 9 10 11\nf 9 12 10\nf 9 11 12\nf 10 12 11\n";
    CHECK(outward_volume(cube_obj(1, 1, true) + kMoved + faces) == doctest::Approx(1 + 1.0 / 6));
}

TEST_CASE("normals turn with their triangles") {
    Mesh mesh = mesh_from("s 1\n" + cube_obj(1, 1, true));
    orient_outward(mesh);
    REQUIRE(mesh.normals.size() == mesh.positions.size());
    for (size_t i = 0; i < mesh.positions.size(); ++i) {
        CHECK(glm::dot(mesh.normals[i], mesh.positions[i]) > 0);  // the cube's centre is 0
    }
}
