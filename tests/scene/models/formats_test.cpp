// A model looks the same from every kind of file, wherever on a map it is.
#include <doctest/doctest.h>

#include "scene/written_set.h"
#include "set/models/sample_models.h"

using namespace dapple;
using namespace dapple::test;

namespace {

const std::string kRest = kCamera + kFixture;

std::string room_of(const std::string& model) {
    return "[room]\nmodel = \"" + model + "\"\n" + kRest;
}

struct Named {
    std::string name, bytes;
};

std::vector<Named> cards(Paint paint) {
    const auto ply = [&](const char* format, bool of_faces) {
        return ply_card(format, paint, of_faces && paint == Paint::kPicture);
    };
    return {{"card.obj", obj_card(paint)},
            {"card.ply", ply("ascii", true)},
            {"card.PLY", ply("binary_little_endian", false)},
            {"big/card.ply", ply("binary_big_endian", true)},
            {"card.gltf", gltf_card(paint, data_uri(card_buffer()))},
            {"card.glb", glb_of(gltf_card(paint, ""), card_buffer())}};
}

bool is_near(const Vec3& a, const Vec3& b, float tolerance) {
    return glm::all(glm::lessThan(glm::abs(a - b), Vec3(tolerance)));
}

// The points, colours and texture coordinates at the corners of all triangles.
struct Corners {
    std::vector<Vec3> points, colours;
    std::vector<Vec2> uvs;
};

Corners corners_of(const Mesh& mesh) {
    Corners corners;
    for (const glm::uvec3& triangle : mesh.triangles) {
        for (int k = 0; k < 3; ++k) {
            corners.points.push_back(mesh.positions[triangle[k]]);
            if (!mesh.colours.empty()) corners.colours.push_back(mesh.colours[triangle[k]]);
            if (!mesh.uvs.empty()) corners.uvs.push_back(mesh.uvs[triangle[k]]);
        }
    }
    return corners;
}

}  // namespace

TEST_CASE("every kind of file gives the same mesh, colours, picture and material") {
    for (const Paint paint : {Paint::kColours, Paint::kPicture}) {
        WrittenSet set;
        set.folder("big").file("card.png", "").file("big/card.png", "");
        set.file("card.mtl", "newmtl card\nmap_Kd card.png\n");
        std::optional<Corners> first;
        for (const Named& card : cards(paint)) {
            CAPTURE(card.name);
            set.file(card.name, card.bytes);
            const Scene scene = set.build_clean(room_of(card.name));
            const size_t notes = card.name == "card.obj" && paint == Paint::kColours ? 1 : 0;
            CHECK(set.notes().size() == notes);  // the OBJ names a material without an MTL file
            REQUIRE(scene.room.size() == 1);
            REQUIRE(scene.materials.at(0).name == "card");
            CHECK(scene.materials[0].reflectance == Rgb(0.98F));
            CHECK(scene.materials[0].vertex_colours == (paint == Paint::kColours));
            CHECK((scene.materials[0].reflectance_texture >= 0) == (paint == Paint::kPicture));
            const Corners corners = corners_of(scene.room[0]);
            if (!first) first = corners;
            REQUIRE(corners.points.size() == 12);
            REQUIRE(corners.colours.size() == (paint == Paint::kColours ? 12 : 0));
            for (size_t i = 0; i < 12; ++i) {
                CHECK(is_near(corners.points[i], first->points[i], 1e-6F));
                if (paint == Paint::kColours) {
                    // glTF has linear colours of 16 bits, text six decimals of the code.
                    CHECK(is_near(corners.colours[i], first->colours[i], 1e-5F));
                } else {
                    CHECK(glm::distance(corners.uvs[i], first->uvs[i]) < 1e-6F);
                }
            }
        }
    }
}

TEST_CASE("[[surface]] replaces the colours of vertices") {
    WrittenSet set;
    set.file("card.ply", ply_card("ascii", Paint::kColours));
    const Scene scene = set.build_clean(
        room_of("card.ply") + "[[surface]]\nname = \"card\"\nreflectance = [0.1, 0.2, 0.3]\n");
    CHECK_FALSE(scene.materials.at(0).vertex_colours);
    CHECK(scene.materials[0].reflectance == Rgb(0.1F, 0.2F, 0.3F));
}

TEST_CASE("a model in map coordinates is moved before it is cut to floats, and told") {
    const auto card_at = [](const std::string& x, const std::string& y, const std::string& z) {
        return "v " + x + "0.00 " + y + "0.00 " + z + "0.00\nv " + x + "2.00 " + y + "0.00 " + z +
               "0.00\nv " + x + "2.00 " + y + "1.50 " + z + "0.01\nf 1 2 3\n";
    };
    WrittenSet set;
    set.file("far.obj", card_at("41234", "569012", "3"));
    const Scene scene = set.build_clean(room_of("far.obj"));
    REQUIRE(set.notes().size() == 1);
    CHECK(set.notes()[0] ==
          "set.toml:2:1: room: model: is far from its origin, as on a map; moved so that its point "
          "(412341.000, 5690120.000, 30.005), under its middle at its lowest height, is [0, 0, 0] "
          "here");
    const std::vector<Point>& p = scene.room.at(0).positions;
    REQUIRE(p.size() == 3);
    CHECK(is_near(p[0], Vec3(-1, 0, -0.005F), 1e-6F));
    CHECK(is_near(p[2], Vec3(1, 1.5F, 0.005F), 1e-6F));  // a float of 5690121.5 has steps of 0.5

    set.file("up.obj", card_at("41234", "569012", "3"));
    const Scene turned =
        set.build_clean("[room]\nmodel = \"up.obj\"\nup = \"z\"\nunit = \"cm\"\n" + kRest);
    CHECK(is_near(turned.room.at(0).positions[0], Vec3(-0.01F, 0, 0.0075F), 1e-6F));

    set.file("near.obj", card_at("1", "2", "3"));
    const Scene here = set.build_clean(room_of("near.obj"));
    CHECK(set.notes().empty());
    CHECK(is_near(here.room.at(0).positions[0], Vec3(10, 20, 30), 1e-6F));
}

TEST_CASE("model glass is read from every kind of file, without its materials") {
    WrittenSet set;
    const std::string tetrahedron =
        "ply\nformat ascii 1.0\ncomment TextureFile lost.png\nelement vertex 4\nproperty float x\n"
        "property float y\nproperty float z\nelement face 4\nproperty list uchar int vertex_index\n"
        "end_header\n0 0 0\n1 0 0\n0 1 0\n0 0 1\n3 0 2 1\n3 0 1 3\n3 0 3 2\n3 1 2 3\n";
    set.file("glass.ply", tetrahedron);
    const Scene scene = set.build_clean(
        kRoom + kRest +
        "[[glass]]\nname = \"block\"\nmodel = \"glass.ply\"\nposition = [0, 1, 0]\n");
    CHECK(set.notes().empty());
    REQUIRE(scene.glass_meshes.size() == 1);
    CHECK(scene.glass_meshes[0].triangles.size() == 4);
    CHECK(scene.glass_meshes[0].colours.empty());
}

TEST_CASE("a picture that is missing is a note and a mid grey") {
    WrittenSet set;
    set.file("card.mtl", "newmtl card\nmap_Kd lost.png\n")
        .file("card.obj", obj_card(Paint::kPicture));
    const Scene scene = set.build_clean(room_of("card.obj"));
    CHECK(scene.materials.at(0).reflectance == Rgb(0.5F));
    REQUIRE(set.notes().size() == 1);
    CHECK(set.notes()[0] == "card.mtl:2:8: map_Kd: no such file: \"lost.png\"; a mid grey is used");
}

TEST_CASE("a material whose picture is missing keeps its own colour; white and black are none") {
    for (const auto& [kd, colour] : {std::pair{"Kd 0.25 0.35 0.28", Rgb(0.25F, 0.35F, 0.28F)},
                                     std::pair{"Kd 1 1 1", Rgb(0.5F)},
                                     std::pair{"Kd 0 0 0", Rgb(0.5F)}}) {
        CAPTURE(kd);
        WrittenSet set;
        set.file("card.mtl", std::string("newmtl card\n") + kd + "\nmap_Kd lost.png\n")
            .file("card.obj", obj_card(Paint::kPicture));
        const Scene scene = set.build_clean(room_of("card.obj"));
        CHECK(scene.materials.at(0).reflectance == colour);
        REQUIRE(set.notes().size() == 1);
        const bool is_own = colour != Rgb(0.5F);
        CHECK(set.notes()[0] ==
              std::string("card.mtl:3:8: map_Kd: no such file: \"lost.png\"; ") +
                  (is_own ? "the material's own colour is used" : "a mid grey is used"));
    }
}
