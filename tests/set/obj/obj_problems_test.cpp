// Each problem of an OBJ file is one clear line with its place.
#include <doctest/doctest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "obj_helpers.h"
#include "set/models/triangulate.h"

using namespace dapple;

namespace {

const std::string kSquare = "v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\n";

std::string file_problem(const std::string& path) {
    Problems problems;
    read_obj(path, problems);
    REQUIRE(problems.all().size() == 1);
    return to_string(problems.all()[0]);
}

}  // namespace

TEST_CASE("bad lines of an OBJ file are reported with line, column and what is allowed") {
    struct Case {
        const char* lines;
        const char* says;
    };
    const Case cases[] = {
        {"f 1 2 12", "5:7: f: uses vertex 12 of 4"},
        {"f 1 2 -5", "5:7: f: uses vertex -5, but only 4 are above it"},
        {"f 1 0 2", "5:5: f: uses vertex 0; the first is 1"},
        {"f 1 2 99999999999999999999", "5:7: f: uses vertex 99999999999999999999 of 4"},
        {"f 1 2 3.0", "5:7: f: \"3.0\" is not a corner; must be like 7, 7/2, 7//3 or 7/2/3"},
        {"f 1 2 x", "5:7: f: \"x\" is not a corner; must be like 7, 7/2, 7//3 or 7/2/3"},
        {"f 1 2 \\\n  x", "6:3: f: \"x\" is not a corner; must be like 7, 7/2, 7//3 or 7/2/3"},
        {"v 1 2", "5:1: v: has 2 numbers; needs 3"},
        {"v 1,5 2 3", "5:3: v: \"1,5\" is not a number"},
        {"v 0 nan 0", "5:5: v: \"nan\" is not a finite number"},
        {"v 0 0 -inf", "5:7: v: \"-inf\" is not a finite number"},
        {"v 1.#IND 0 0", "5:3: v: \"1.#IND\" is not a number"},
        {"v 1e39 0 0", "5:3: v: \"1e39\" is too large a number"},
        {"vn 0 1", "5:1: vn: has 2 numbers; needs 3"},
        {"vt", "5:1: vt: has 0 numbers; needs 1"},
        {"s five", "5:3: s: \"five\" is not a group; must be off or a whole number"},
    };
    for (const Case& one : cases) {
        CAPTURE(one.lines);
        CHECK(first_problem(kSquare + one.lines + "\nf 1 2 3\n") == one.says);
    }
}

TEST_CASE("a vertex that cannot be read keeps its index") {
    Problems problems;
    const ModelDescription model =
        read_lines("v 9 9 9\nv x 0 0\nv 1 1 0\nv 0 3 0\nf 1 3 4\n", problems);
    CHECK(problems.all().size() == 1);
    REQUIRE(model.triangles.size() == 1);
    CHECK(model.positions[static_cast<size_t>(model.triangles[0].corners[2].position)][1] == 3);
}

TEST_CASE("a file without faces is reported") {
    CHECK(first_problem("") == " has no faces");
    CHECK(first_problem("# nothing\n") == " has no faces");
    CHECK(first_problem(kSquare) == " has no faces, only 4 vertices");
    CHECK(first_problem("v 1 1 1\nf 1 1 1\n") == " has no face with an area");
}

TEST_CASE("a face with too many corners is reported") {
    std::string face = "f";
    for (int i = 0; i <= kMaxCorners; ++i) face += " 1";
    CHECK(first_problem(kSquare + face + "\n") ==
          "5:20003: f: has more than 10000 corners, the most that a face may have");
}

TEST_CASE("paths without a model are reported") {
    const std::string folder =
        (std::filesystem::temp_directory_path() / ("dapple_obj_" + std::to_string(getpid())))
            .string();
    std::filesystem::create_directory(folder);
    CHECK(file_problem(folder) == folder + ": is a folder; must be a file");
    CHECK(file_problem(folder + "/none.obj") == folder + "/none.obj: no such file");
    std::ofstream(folder + "/code.obj", std::ios::binary) << std::string("\x64\x86\0\0\1", 5);
    CHECK(file_problem(folder + "/code.obj") == folder + "/code.obj: is binary; must be text");
    std::ofstream(folder + "/wide.obj", std::ios::binary) << std::string("\xff\xfev\0", 4);
    CHECK(file_problem(folder + "/wide.obj") ==
          folder + "/wide.obj: is UTF-16 text; must be ASCII or UTF-8");
    std::ofstream(folder + "/empty.obj").close();
    CHECK(file_problem(folder + "/empty.obj") == folder + "/empty.obj: has no faces");
    std::ofstream(folder + "/huge.obj").close();
    std::filesystem::resize_file(folder + "/huge.obj", uintmax_t{5} << 30U);  // takes no disk
    CHECK(file_problem(folder + "/huge.obj") ==
          folder + "/huge.obj: is 5120 MB; at most 2047 MB can be read");
    std::filesystem::remove_all(folder);
}

TEST_CASE("problems of one kind are one line with the number of all") {
    std::string text = kSquare + "f 1 2 3\n";
    for (int i = 0; i < 100; ++i) text += "f 1 2 " + std::to_string(5 + i) + "\nv 0 x 0\n";
    Problems problems;
    read_lines(text, problems);
    REQUIRE(problems.all().size() == 1);  // the faces name vertices that are there
    CHECK(short_text(problems.all()[0]) == "7:5: v: \"x\" is not a number (100 lines in all)");
    text = kSquare + "f 1 2 3\n";
    for (int i = 0; i < 100; ++i) text += "f 1 2 " + std::to_string(99 + i) + "\nvt\n";
    problems = Problems();
    read_lines(text, problems);
    REQUIRE(problems.all().size() == 2);
    CHECK(short_text(problems.all()[0]) == "7:1: vt: has 0 numbers; needs 1 (100 lines in all)");
    CHECK(short_text(problems.all()[1]) == "6:7: f: uses vertex 99 of 4 (100 lines in all)");
}

TEST_CASE("what a surface can do without is noted, once for all faces") {
    struct Case {
        std::string lines;
        std::string says;
    };
    const Case cases[] = {
        {"f 1//9 2//9 3//9\nf 1//7 3//7 4//7\n",
         "5:1: f: uses normal 9 of 0; it is flat there (2 faces in all)"},
        {"vn 0 0 1\nf 1//0 2//1 3//1\n", "6:1: f: uses normal 0; the first is 1; it is flat there"},
        {"f 1/5 2/6 3/7\n", "5:1: f: uses texture coordinate 7 of 0; read as if it named none"},
        {"f 1 2\nf 1 2 3\nf 3\n",
         "5:1: f: has 2 corners; a face has at least 3; left out (2 faces in all)"},
        {"mtllib letters.mtl  lost.mtl\nusemtl gone\nf 1 2 3\nusemtl lost\nf 1 3 4\n",
         "5:21: mtllib: no such file: \"" + kModels + "lost.mtl\"; its materials are a mid grey"},
        {"mtllib lost and found.mtl\nf 1 2 3\n",
         "5:8: mtllib: no such file: \"" + kModels +
             "lost and found.mtl\"; its materials are a mid grey"},
        {"usemtl a\nf 1 2 3\nusemtl b\nf 1 2 3\n",
         "5:8: usemtl: \"a\" is in no MTL file; a mid grey is used (2 names in all)"},
    };
    for (const Case& one : cases) {
        CAPTURE(one.lines);
        Problems problems;
        const ModelDescription model = read_lines(kSquare + one.lines, problems);
        CHECK(problems.empty());
        REQUIRE(problems.notes().size() == 1);
        CHECK(short_text(problems.notes()[0]) == one.says);
        CHECK(!model.triangles.empty());
        CHECK(is_sound(model));
    }
}

TEST_CASE("glass needs the shape alone: its materials are neither read nor missed") {
    Problems problems;
    const ModelDescription model =
        read_obj_text("mtllib lost.mtl\n" + kSquare + "usemtl lost\nf 1 2 3\n",
                      kModels + "lines.obj",
                      problems,
                      ModelParts::kShape);
    CHECK(problems.empty());
    CHECK(problems.notes().empty());
    CHECK(model.materials.empty());
    CHECK(model.triangles.size() == 1);
}

TEST_CASE("a material that no MTL file defines is grey, with a note that names the nearest") {
    Problems problems;
    const ModelDescription model =
        read_lines("mtllib letters.mtl\n" + kSquare + "usemtl golt\nf 1 2 3\n", problems);
    CHECK(problems.empty());
    REQUIRE(problems.notes().size() == 1);
    CHECK(short_text(problems.notes()[0]) ==
          "6:8: usemtl: \"golt\" is in no MTL file; a mid grey is used (the nearest is \"gold\")");
    const auto& material = model.materials[static_cast<size_t>(model.triangles[0].material)];
    CHECK(material.name == "golt");
    CHECK(material.diffuse == std::array<float, 3>{0.5F, 0.5F, 0.5F});
}

TEST_CASE("unknown lines get one note, and control characters are not printed") {
    CHECK(first_note(kSquare + "f 1 2 3\nfoo\x1b[31m 1\nbar\n") ==
          "6:1: \"foo?[31m\" is not an OBJ statement; ignored (2 lines in all)");
}

TEST_CASE("faces with a flat part get one note, faces that cross themselves another") {
    CHECK(first_note(kSquare + "f 1 2 3\nf 1 1 2\nf 1 2 2 3\n") ==
          "6:1: f: has a part without area; left out (2 lines in all)");
    CHECK(first_note(kSquare + "f 1 3 2 4\n") ==
          "5:1: f: crosses itself; its triangles are a guess");
}
