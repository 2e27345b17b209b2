// The statements of real OBJ files are read correctly.
#include <doctest/doctest.h>

#include "obj_helpers.h"
#include "set/models/vertex_colours.h"

using namespace dapple;

namespace {

const std::string kFourCorners = "v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\n";

std::array<int32_t, 3> positions_of(const ModelTriangle& triangle) {
    return {
        triangle.corners[0].position, triangle.corners[1].position, triangle.corners[2].position};
}

ModelDescription read_clean_obj(const std::string& text) {
    Problems problems;
    ModelDescription model = read_lines(text, problems);
    CHECK(problems.empty());
    CHECK(problems.notes().empty());
    return model;
}

}  // namespace

TEST_CASE("every test model is read without a problem") {
    for (const char* name :
         {"box_windows.obj", "every_word.obj", "letters.obj", "name with blanks.obj"}) {
        CAPTURE(name);
        Problems problems;
        const ModelDescription model = read_obj(kModels + name, problems);
        CHECK(problems.empty());
        CHECK(!model.triangles.empty());
        CHECK(is_sound(model));
    }
}

TEST_CASE("a box with Windows line ends, tabs, a byte order mark and no last line end is read") {
    Problems problems;
    const ModelDescription model = read_obj(kModels + "box_windows.obj", problems);
    REQUIRE(model.positions.size() == 8);
    REQUIRE(model.triangles.size() == 12);
    double area = 0;
    for (const ModelTriangle& triangle : model.triangles) area += area_of(model, triangle);
    CHECK(area == doctest::Approx(2 * (2 * 1 + 2 * 3 + 1 * 3)));
    REQUIRE(model.materials.size() == 2);
    CHECK(model.materials[0].name == "white paint");
    CHECK(model.triangles[0].material == 0);
    CHECK(model.triangles[11].material == 1);
    CHECK(model.triangles[11].corners[0].uv == -1);
    CHECK(model.triangles[11].corners[0].normal == -1);
}

TEST_CASE("a model with every kind of line gives its faces, groups, normals and materials") {
    Problems problems;
    const ModelDescription model = read_obj(kModels + "every_word.obj", problems);
    CHECK(problems.empty());
    REQUIRE(problems.notes().size() == 1);  // one for all curves
    CHECK(short_text(problems.notes()[0]) ==
          "14:1: \"vp\" is ignored; curves and curved surfaces are not read (5 lines in all)");
    REQUIRE(model.positions.size() == 4);
    CHECK(model.positions[2] == std::array<double, 3>{1, 1, 1e-60});
    REQUIRE(model.colours.size() ==
            4);  // a weight alone is no colour, and one before it is skipped
    CHECK(model.colours[0] == std::array<float, 3>{1, 1, 1});
    CHECK(model.colours[2][1] == doctest::Approx(linear_from_srgb(0.4F)));
    CHECK(model.colours[3][1] == doctest::Approx(linear_from_srgb(0.2F)));
    CHECK(model.uvs.size() == 4);
    CHECK(model.normals.size() == 2);
    REQUIRE(model.triangles.size() == 5);
    CHECK(model.triangles[0].smoothing_group == 1);
    CHECK(model.triangles[0].corners[2].uv == 2);
    CHECK(model.triangles[0].corners[2].normal == 0);
    CHECK(model.triangles[2].smoothing_group == 0);
    CHECK(model.triangles[2].corners[0].uv == -1);
    CHECK(model.triangles[2].corners[0].normal == 1);
    const auto name = [&](size_t i) {
        return model.materials[static_cast<size_t>(model.triangles[i].material)].name;
    };
    CHECK(name(0) == "red");
    CHECK(name(2) == "gold");
    CHECK(name(4) == "white paint");
}

TEST_CASE("MTL and material names may contain blanks and a number sign") {
    Problems problems;
    const ModelDescription model = read_obj(kModels + "name with blanks.obj", problems);
    CHECK(problems.notes().empty());
    REQUIRE(model.triangles.size() == 2);
    CHECK(model.materials[static_cast<size_t>(model.triangles[0].material)].name ==
          "clear varnish #2");
    CHECK(model.materials[static_cast<size_t>(model.triangles[1].material)].name == "net");
}

TEST_CASE("negative indices count back from the face, positive ones may refer to later points") {
    const ModelDescription model =
        read_clean_obj(kFourCorners + "f -4 -3 -2\nv 5 5 5\nf -5 -4 -3\nf 1 2 6\nv 0 0 9\n");
    REQUIRE(model.triangles.size() == 3);
    CHECK(positions_of(model.triangles[0]) == std::array<int32_t, 3>{0, 1, 2});
    CHECK(positions_of(model.triangles[1]) == std::array<int32_t, 3>{0, 1, 2});
    CHECK(positions_of(model.triangles[2]) == std::array<int32_t, 3>{0, 1, 5});
}

TEST_CASE("a backslash joins lines, also inside a face and before Windows line ends") {
    for (const std::string join : {"\\\n", "\\\r\n", "\\\r", "\\ \t\n"}) {
        CAPTURE(join);
        const ModelDescription model =
            read_clean_obj(kFourCorners + "f 1 2" + join + "3 " + join + " 4\n");
        CHECK(model.triangles.size() == 2);
    }
}

TEST_CASE("a backslash at the end of a comment or a group name joins nothing") {
    const ModelDescription model = read_clean_obj("# C:\\models\\\n" + kFourCorners +
                                                  "g C:\\old\\\nf 1 2 3\n# end \\\nf 1 3 4");
    CHECK(model.triangles.size() == 2);
}

TEST_CASE("lines end in any of the three ways") {
    const ModelDescription model =
        read_clean_obj("v 0 0 0\rv 1 0 0\r\nv 0 1 0\n\r\n  \t\r\nf 1 2 3\r");
    REQUIRE(model.triangles.size() == 1);
}

TEST_CASE("smoothing groups are numbers, and off and 0 are none") {
    const ModelDescription model = read_clean_obj(
        kFourCorners +
        "f 1 2 3\ns 3\nf 1 2 3\ns off\nf 1 2 3\ns 4000000000\nf 1 2 3\ns 0\nf 1 2 3\n");
    const std::array<uint32_t, 5> groups{0, 3, 0, 4000000000U, 0};
    REQUIRE(model.triangles.size() == groups.size());
    for (size_t i = 0; i < groups.size(); ++i) {
        CHECK(model.triangles[i].smoothing_group == groups[i]);
    }
}

TEST_CASE("a face before any usemtl has no material, and an empty usemtl returns to none") {
    const ModelDescription model = read_clean_obj(
        "mtllib letters.mtl\n" + kFourCorners + "f 1 2 3\nusemtl red\nf 1 2 3\nusemtl\nf 1 2 3\n");
    REQUIRE(model.triangles.size() == 3);
    CHECK(model.triangles[0].material == -1);
    CHECK(model.triangles[1].material == 0);
    CHECK(model.triangles[2].material == -1);
}

TEST_CASE("the mtllib line may be anywhere") {
    const ModelDescription model =
        read_clean_obj(kFourCorners + "usemtl gold\nf 1 2 3\nmtllib letters.mtl\n");
    REQUIRE(model.triangles.size() == 1);
    CHECK(model.materials[static_cast<size_t>(model.triangles[0].material)].opacity ==
          doctest::Approx(0.75));
}

TEST_CASE("a normal without length counts as not given") {
    const ModelDescription model =
        read_clean_obj(kFourCorners + "vn 0 0 0\nvn 0 0 1\nf 1//1 2//2 3//2\n");
    REQUIRE(model.triangles.size() == 1);
    CHECK(model.triangles[0].corners[0].normal == -1);
    CHECK(model.triangles[0].corners[1].normal == 1);
}

TEST_CASE("numbers are read in all the ways that people and programs write them") {
    const ModelDescription model = read_clean_obj(
        "v 1. .5 -.25\nv +1.5e+2 -2E-1 007\nv 0.00000000000000000000000000000000000000000000000001 "
        "1e-400 -0\nf 1 2 3\n");
    CHECK(model.positions[0] == std::array<double, 3>{1, 0.5, -0.25});
    CHECK(model.positions[1] == std::array<double, 3>{150, -0.2, 7});
    CHECK(model.positions[2] == std::array<double, 3>{1e-50, 0, 0});
}
