// PLY files of every kind give the same model, and their mistakes are one line.
#include <doctest/doctest.h>

#include <random>

#include "set/models/sample_models.h"
#include "set/obj/obj_helpers.h"
#include "set/ply/read_ply.h"

using namespace dapple;
using namespace dapple::test;

namespace {

const std::string kFormats[] = {"ascii", "binary_little_endian", "binary_big_endian"};

ModelDescription read_clean_ply(const std::string& bytes) {
    Problems problems;
    ModelDescription model = read_ply_bytes(bytes, kModels + "card.ply", problems);
    for (const Problem& problem : problems.all()) FAIL_CHECK(to_string(problem));
    return model;
}

std::string said_of(const std::string& bytes) {
    Problems problems;
    const ModelDescription model = read_ply_bytes(bytes, "a/card.ply", problems);
    if (!problems.empty()) CHECK(model.triangles.empty());
    if (!problems.empty()) return short_text(problems.all().front());
    return problems.notes().empty() ? "" : short_text(problems.notes().front());
}

std::string with(std::string text, const std::string& from, const std::string& to) {
    const size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("quads with colours at their vertices are read in every format") {
    const Card card;
    for (const std::string& format : kFormats) {
        CAPTURE(format);
        const ModelDescription model = read_clean_ply(ply_card(format, Paint::kColours));
        REQUIRE(model.positions.size() == 6);
        REQUIRE(model.colours.size() == 6);
        REQUIRE(model.triangles.size() == 4);
        CHECK(is_sound(model));
        for (size_t i = 0; i < 6; ++i) {
            for (size_t k = 0; k < 3; ++k) {
                CHECK(model.positions[i][k] == double{card.positions[i][k]});
                CHECK(model.colours[i][k] ==
                      doctest::Approx(linear_of(card.colours[i][k])).epsilon(1e-5));
            }
        }
        REQUIRE(model.materials.size() == 1);
        CHECK(model.materials[0].name == "card");
        CHECK(model.materials[0].vertex_colours);
        CHECK(model.materials[0].diffuse == std::array<float, 3>{1, 1, 1});
    }
}

TEST_CASE(
    "texture coordinates of vertices and of faces are read, and TextureFile names the picture") {
    const Card card;
    for (const std::string& format : kFormats) {
        for (const bool of_faces : {false, true}) {
            CAPTURE(format);
            Problems problems;
            const ModelDescription model = read_ply_bytes(
                with(ply_card(format, Paint::kPicture, of_faces), "card.png", "maps/plank.png"),
                kModels + "card.ply",
                problems);
            CHECK(problems.empty());
            CHECK(problems.notes().empty());
            CHECK(model.materials.at(0).diffuse_map.path == kModels + "maps/plank.png");
            CHECK_FALSE(model.materials[0].vertex_colours);
            for (const ModelTriangle& triangle : model.triangles) {
                for (const ModelCorner& corner : triangle.corners) {
                    REQUIRE(corner.uv >= 0);
                    CHECK(model.uvs[static_cast<size_t>(corner.uv)] ==
                          card.uvs[static_cast<size_t>(corner.position)]);
                }
            }
        }
    }
}

TEST_CASE("strips turn all their triangles the same way, and -1 begins another strip") {
    const ModelDescription model = read_clean_ply(
        "ply\nformat ascii 1.0\nelement vertex 5\nproperty float x\nproperty float y\n"
        "property float z\nelement tristrips 1\nproperty list int int vertex_indices\nend_header\n"
        "0 0 0\n1 0 0\n0 1 0\n1 1 0\n0 2 0\n9 0 1 2 3 4 -1 0 1 4\n");
    REQUIRE(model.triangles.size() == 4);
    for (const ModelTriangle& triangle : model.triangles) {
        const auto p = [&](size_t i) {
            return model.positions[static_cast<size_t>(triangle.corners[i].position)];
        };
        CHECK(area_vector(p(0), p(1), p(2))[2] > 0);
    }
}

TEST_CASE("what is wrong with a PLY file is one line") {
    const std::string ascii = ply_card("ascii", Paint::kColours);
    const std::string binary = ply_card("binary_little_endian", Paint::kColours);
    const struct {
        std::string bytes, says;
    } rows[] = {
        {"", " is not a PLY file: its first line must be ply"},
        {"solid\n", "1: is not a PLY file: its first line must be ply"},
        {with(ascii, "ascii", "text"),
         "2: format is \"text\"; must be ascii, binary_little_endian or binary_big_endian"},
        {with(ascii, "format ascii 1.0\n", ""), "11: has no line format above end_header"},
        {with(ascii, "element vertex 6", "element vertex many"),
         "3: must be like: element vertex 1000"},
        {with(ascii, "element vertex 6", "element vertex 999999999999"),
         "3: has 999999999999 of \"vertex\", but the file is too short for that"},
        {with(ascii, "property float x", "property half x"),
         "4: must be like: property float x, or: property list uchar int indices"},
        {with(ascii, "float x\n", "float a\n"), "3: the vertices have no x, y and z"},
        {with(ascii, "end_header\n", ""), "12: \"0.000000\" is not a word of PLY headers"},
        {with(ascii, "4 0 1 4 3", "4 0 1 6 3"),
         "19: face: number 1 uses vertex 6; there are 6, counted from 0"},
        {with(ascii, "4 0 1 4 3", "4 0 -1 4 3"),
         "19: face: number 1 uses vertex -1; there are 6, counted from 0"},
        {with(ascii, "4 0 1 4 3", "4 0 1 x 3"), "19: \"x\" in face 1 is not a number"},
        {ascii.substr(0, ascii.size() - 4), "20: the file ends in face 2 of 2; it is cut off"},
        {binary.substr(0, binary.size() - 4), " the file ends in face 2 of 2; it is cut off"},
        {with(ascii, "4 0 1 4 3", "2 0 1"),
         "19: face: number 1 has fewer than 3 corners; left out"},
        {with(ascii, "4 0 1 4 3", "4 0 0 4 3"),
         "19: face: number 1 has a part without area; left out"},
        {with(ascii, "0.000000 0.000000 0.000000", "nan nan nan"),
         "19: face: number 1 has a corner that is nowhere (nan or infinite); left out"},
        {ascii.substr(0, ascii.find("element face")) + "end_header\n0 0 0 1 1 1\n1 0 0 1 1 1\n" +
             "0 1 0 1 1 1\n0 0 1 1 1 1\n1 0 1 1 1 1\n1 1 1 1 1 1\n",
         " has no faces with an area, only 6 vertices; of a cloud of points make a mesh first"},
    };
    for (const auto& row : rows) {
        CAPTURE(row.bytes);
        CHECK(said_of(row.bytes) == row.says);
    }
}

TEST_CASE("damaged PLY files are read safely") {
    std::mt19937 random(22);
    const auto below = [&](size_t count) { return random() % count; };
    int sound = 0;
    for (int i = 0; i < 1500; ++i) {
        std::string bytes =
            ply_card(kFormats[i % 3], i % 2 ? Paint::kColours : Paint::kPicture, i % 4 == 0);
        for (size_t n = 1 + below(4); n > 0; --n) {
            const size_t at = below(bytes.size());
            if (below(4) == 0)
                bytes.erase(at, 1 + below(9));
            else
                bytes[at] = static_cast<char>(below(2) ? below(256) : "0987-. \n"[below(8)]);
        }
        Problems problems;
        const ModelDescription model = read_ply_bytes(bytes, kModels + "damaged.ply", problems);
        REQUIRE(is_sound(model));
        REQUIRE((problems.empty() || model.triangles.empty()));
        sound += problems.empty();
    }
    CHECK(sound > 100);
}
