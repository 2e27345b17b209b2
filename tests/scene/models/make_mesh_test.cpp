// OBJ corners become shared vertices, and missing normals are computed.
#include "scene/models/make_mesh.h"

#include <doctest/doctest.h>

#include "set/obj/read_obj.h"

using namespace dapple;

namespace {

constexpr float kExact = 1e-6F;  // a few float roundings of unit vectors

Mesh mesh_of(const std::string& obj_text, const ModelAxes& axes = {}) {
    Problems problems;
    const ModelDescription obj = read_obj_text(obj_text, "test.obj", problems);
    for (const Problem& problem : problems.all()) FAIL_CHECK(to_string(problem));
    return make_mesh(
        obj, all_triangles(obj), axes, std::vector<MaterialId>(obj.materials.size() + 1, 0));
}

// A roof: two rectangles that meet at a ridge along z, one twice as wide as the other.
const std::string kRoof =
    "v 0 1 0\nv 0 1 1\nv -1 0 0\nv -1 0 1\nv 2 -1 0\nv 2 -1 1\n"
    "vt 0 0\nvt 1 1\n";
const std::string kRoofFaces = "f 1 3 4 2\nf 1 2 6 5\n";

}  // namespace

TEST_CASE("flat faces share their vertices and have no normals") {
    const Mesh mesh = mesh_of(kRoof + kRoofFaces);
    CHECK(mesh.triangles.size() == 4);
    CHECK(mesh.positions.size() == 6);
    CHECK(mesh.normals.empty());
    CHECK(mesh.uvs.empty());
}

TEST_CASE("a smoothing group's normal is the sum of its faces by area") {
    const Mesh mesh = mesh_of(kRoof + "s 1\n" + kRoofFaces);
    CHECK(mesh.positions.size() == 6);
    REQUIRE(mesh.normals.size() == 6);
    // The roof's sides have area vectors (-1, 1, 0) and (2, 2, 0). As each face is a fan, its first
    // corner has both triangles and the others one; at the ridge both sides have the same weight.
    for (size_t i = 0; i < 6; ++i) {
        if (mesh.positions[i] != Point(0, 1, 0)) continue;
        CHECK(glm::distance(mesh.normals[i], glm::normalize(Vec3(1, 3, 0))) < kExact);
    }
}

TEST_CASE("a texture's seam does not break a smoothing group") {
    const Mesh mesh = mesh_of(kRoof + "s 1\nf 1/1 3/1 4/1 2/1\nf 1/2 2/2 6/2 5/2\n");
    CHECK(mesh.positions.size() == 8);
    std::vector<Normal> ridge;
    for (size_t i = 0; i < mesh.positions.size(); ++i) {
        if (mesh.positions[i] == Point(0, 1, 0)) ridge.push_back(mesh.normals[i]);
    }
    REQUIRE(ridge.size() == 2);
    CHECK(ridge[0] == ridge[1]);
}

TEST_CASE("different smoothing groups keep the edge between them") {
    const Mesh mesh = mesh_of(kRoof + "s 1\nf 1 3 4 2\ns 2\nf 1 2 6 5\n");
    CHECK(mesh.positions.size() == 8);
    for (size_t i = 0; i < mesh.normals.size(); ++i) {
        const Normal& n = mesh.normals[i];
        const bool is_left = glm::distance(n, glm::normalize(Vec3(-1, 1, 0))) < kExact;
        const bool is_right = glm::distance(n, glm::normalize(Vec3(1, 1, 0))) < kExact;
        CHECK((is_left || is_right));
    }
}

TEST_CASE("given normals are used, turned with the model and normalised") {
    const std::string text = "v 0 0 0\nv 1 0 0\nv 0 1 0\nvn 0 0 5\nf 1//1 2//1 3//1\n";
    CHECK(mesh_of(text).normals[0] == Normal(0, 0, 1));
    CHECK(mesh_of(text, {0.01, true}).normals[0] == Normal(0, 1, 0));
}

TEST_CASE("a normal without length is replaced by that of the face") {
    const Mesh mesh = mesh_of("v 0 0 0\nv 1 0 0\nv 0 1 0\nvn 0 0 0\nvn 0 1 0\nf 1//1 2//2 3//2\n");
    REQUIRE(mesh.normals.size() == 3);
    CHECK(mesh.normals[0] == Normal(0, 0, 1));
    CHECK(mesh.normals[1] == Normal(0, 1, 0));
}

TEST_CASE("triangles with two corners at one place are left out") {
    CHECK(mesh_of("v 0 0 0\nv 1 0 0\nv 0 1 0\nv 1 0 0\nf 1 2 3\nf 2 4 3\n").triangles.size() == 1);
}

TEST_CASE("texture coordinates stay with their corners") {
    const Mesh mesh = mesh_of("v 0 0 0\nv 1 0 0\nv 0 1 0\nvt 0.25 0.5\nvt 0.75 1\nf 1/1 2/2 3/1\n");
    REQUIRE(mesh.uvs.size() == 3);
    CHECK(mesh.uvs[0] == Vec2(0.25F, 0.5F));
    CHECK(mesh.uvs[1] == Vec2(0.75F, 1.0F));
}
