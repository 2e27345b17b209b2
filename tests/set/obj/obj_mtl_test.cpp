// MTL files are read for colour, opacity and their maps.
#include "set/obj/obj_mtl.h"

#include <doctest/doctest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <utility>

#include "obj_helpers.h"
#include "set/models/find_pictures.h"

using namespace dapple;

namespace {

// As if a face used each material.
std::vector<ModelMaterial> with_pictures(std::vector<ModelMaterial> materials, Problems& problems) {
    ModelDescription model;
    model.triangles.resize(materials.size());
    for (size_t i = 0; i < materials.size(); ++i) {
        model.triangles[i].material = static_cast<int32_t>(i);
    }
    model.materials = std::move(materials);
    find_pictures(model, problems);
    return model.materials;
}

std::vector<ModelMaterial> read_materials(std::string_view text, Problems& problems) {
    std::vector<ModelMaterial> materials;
    read_mtl_text(text, kModels + "lines.mtl", materials, problems);
    return with_pictures(std::move(materials), problems);
}

// The first problem of the text, or its first note, or "".
std::string said_about(std::string_view text) {
    Problems problems;
    read_materials(text, problems);
    if (!problems.empty()) return short_text(problems.all().front());
    return problems.notes().empty() ? "" : short_text(problems.notes().front());
}

ModelMaterial read_one(std::string_view lines) {
    Problems problems;
    const auto materials = read_materials("newmtl m\n" + std::string(lines), problems);
    CHECK(problems.empty());
    REQUIRE(materials.size() == 1);
    return materials[0];
}

}  // namespace

TEST_CASE("a material keeps its name, place, colour, opacity and maps") {
    std::vector<ModelMaterial> materials;
    Problems problems;
    read_mtl(kModels + "paint.mtl", materials, problems);
    materials = with_pictures(std::move(materials), problems);
    CHECK(problems.empty());
    CHECK(problems.notes().empty());
    REQUIRE(materials.size() == 2);
    CHECK(materials[0].name == "white paint");
    CHECK(to_string(materials[0].place) == kModels + "paint.mtl:2:8");
    CHECK(materials[0].diffuse == std::array<float, 3>{0.8F, 0.8F, 0.75F});
    CHECK(materials[0].diffuse_map.empty());
    CHECK(materials[1].opacity == 0.75F);
    CHECK(materials[1].diffuse_map.path == kModels + "maps/plank.png");
    CHECK(materials[1].opacity_map.path == kModels + "maps/net weave.png");
    CHECK(to_string(materials[1].opacity_map.place) == kModels + "paint.mtl:11:26");
}

TEST_CASE("colour and opacity are read in all the ways that files write them") {
    CHECK(read_one("Kd .25").diffuse == std::array<float, 3>{0.25F, 0.25F, 0.25F});
    CHECK(read_one("\tkd 1 0 1e-1 # pink").diffuse == std::array<float, 3>{1, 0, 0.1F});
    CHECK(read_one("d -halo 0.5").opacity == 0.5F);
    CHECK(read_one("Tr 0.25").opacity == 0.75F);
    CHECK(read_one("Tr 1\nd 1").opacity == 1);  // if a file has both, d is used
    CHECK(read_one("d 1\nTr 1").opacity == 1);
    CHECK(read_one("").diffuse == std::array<float, 3>{0.5F, 0.5F, 0.5F});
}

TEST_CASE("a map without a colour is not darkened by the default grey") {
    CHECK(read_one("map_Kd maps/plank.png").diffuse == std::array<float, 3>{1, 1, 1});
    CHECK(read_one("map_Kd maps/plank.png\nKd 0.5 0.5 0.5").diffuse[0] == 0.5F);
    CHECK(read_one("Kd 0 0 0\nmap_Kd maps/plank.png").diffuse[0] == 1);
}

TEST_CASE("Tr 1 without a d is opaque, as exporters mean it, with one note for all") {
    Problems problems;
    const auto materials = read_materials(
        "newmtl a\nTr 1.0\nnewmtl b\nTr 1\nnewmtl c\nTr 0.25\nnewmtl e\nTr 1\nd 0.5\n", problems);
    CHECK(problems.empty());
    REQUIRE(materials.size() == 4);
    CHECK(materials[0].opacity == 1);
    CHECK(materials[1].opacity == 1);
    CHECK(materials[2].opacity == 0.75F);
    CHECK(materials[3].opacity == 0.5F);
    REQUIRE(problems.notes().size() == 1);
    CHECK(short_text(problems.notes()[0]) ==
          "2:1: Tr: is 1 without a d; read as opaque (invisible is d 0) (2 materials in all)");
}

TEST_CASE("a material without a name has its colour") {
    Problems problems;
    const auto materials = read_materials("newmtl\nKd 1 0 0\n", problems);
    CHECK(problems.empty());
    REQUIRE(materials.size() == 1);
    CHECK(materials[0].diffuse[1] == 0);
    REQUIRE(problems.notes().size() == 1);
    CHECK(short_text(problems.notes()[0]) ==
          "1:1: newmtl: has no name; a [[surface]] cannot change it");
}

TEST_CASE("map names are found after options, with blanks, backslashes, quotes and lost folders") {
    for (const char* name : {"maps/net weave.png",
                             "maps\\net weave.png",
                             ".\\maps\\net weave.png   # cloth",
                             "\"maps/net weave.png\"",
                             "-s 1 1 1 -o 0 0 maps/net weave.png",
                             "-blendu on -blendv off -bm 1.0 -mm 0 1 -cc on maps/net weave.png",
                             "-imfchan l -texres 256 -clamp off -t 0 maps/net weave.png",
                             "maps/NET Weave.PNG"}) {
        CAPTURE(name);
        const std::string path = std::string("map_d ") + name;
        CHECK(read_one(path).opacity_map.path == kModels + "maps/net weave.png");
    }
    // The path is of another machine: the file of that name beside the MTL file is used.
    CHECK(read_one("map_d C:\\work\\paint.mtl").opacity_map.path == kModels + "paint.mtl");
    CHECK(read_one("map_d /elsewhere/PAINT.MTL").opacity_map.path == kModels + "paint.mtl");
}

TEST_CASE("bad lines of an MTL file are reported with line, column and what is allowed") {
    struct Case {
        const char* text;
        std::string says;
    };
    const Case cases[] = {
        {"Kd 1 1 1", "1:1: Kd: is above the first newmtl; must be below one"},
        {"newmtl a\nKd 1 x 1", "2:6: Kd: \"x\" is not a number"},
        {"newmtl a\nKd nan 0 0", "2:4: Kd: \"nan\" is not a finite number"},
        {"newmtl a\nKd 1 1", "2:1: Kd: has 2 numbers; needs 3 (r g b) or 1 (grey)"},
        {"newmtl a\nd", "2:1: d: has no number; needs 0 to 1"},
        {"newmtl a\nTr -0,5", "2:4: Tr: \"-0,5\" is not a number"},
        // notes
        {"newmtl a\nmap_Kd -s 1 1 1", "2:8: map_Kd: has options but no file name; ignored"},
        {"newmtl a\nmap_Kd -s 1 1 1 lost one.png",
         "2:17: map_Kd: no such file: \"" + kModels + "lost one.png\"; a mid grey is used"},
        {"newmtl a\nmap_Kd maps",
         "2:8: map_Kd: no such file: \"" + kModels + "maps\"; a mid grey is used"},
        {"newmtl a\nmap_d lost.png\nnewmtl b\nmap_d lost.png",
         "2:7: map_d: no such file: \"" + kModels +
             "lost.png\"; the surface has no holes (2 materials in all)"},
        {"newmtl a\nd 0", "1:8: newmtl: \"a\" is invisible: its opacity is 0"},
        {"newmtl a\nKd 1 1.5 1", "2:6: Kd: is 1.5; must be from 0 to 1; the nearest is used"},
        {"newmtl a\nKd spectral f.rfl",
         "2:4: Kd: is given as \"spectral\"; must be r g b; ignored"},
        {"newmtl a\nKd 0 0 0\nmap_Kd maps/plank.png", ""},
        {"newmtl a\nmap_Kd -s 2 2 1 maps/plank.png",
         "2:8: map_Kd: option -s is ignored; the map is used without it"},
        {"newmtl a\nKe 0 0 0\nKe 3 3 3",
         "3:1: Ke: is ignored; surfaces of a model give no light, only fixtures do"},
        {"newmtl a\nmap_Bump b.png\nnorm c.png",
         "2:1: \"map_Bump\" is ignored; only map_Kd and map_d are used (2 lines in all)"},
        {"newmtl a\nshininess 4", "2:1: \"shininess\" is not an MTL statement; ignored"},
        {"newmtl a\nKs 1 1 1\nNs 9\nNi 1.5\nillum 2\nPr 0.5\nmap_Kd\n", ""},
    };
    for (const Case& one : cases) {
        CAPTURE(one.text);
        CHECK(said_about(one.text) == one.says);
    }
}

TEST_CASE("a missing map is noted only if a face uses it") {
    const std::string folder =
        (std::filesystem::temp_directory_path() / ("dapple_mtl_" + std::to_string(getpid())))
            .string();
    std::filesystem::create_directory(folder);
    std::ofstream(folder + "/a.mtl") << "newmtl shown\nmap_Kd lost.png\n"
                                        "newmtl spare\nmap_Kd gone.png\nnewmtl shown\nKd 1 0 0\n";
    Problems problems;
    const ModelDescription model =
        read_obj_text("mtllib a.mtl\nv 0 0 0\nv 1 0 0\nv 0 1 0\nusemtl shown\nf 1 2 3\n",
                      folder + "/a.obj",
                      problems);
    std::filesystem::remove_all(folder);
    CHECK(problems.empty());
    REQUIRE(problems.notes().size() == 2);  // the other one: defined twice
    CHECK(to_string(problems.notes()[0]) == folder + "/a.mtl:2:8: map_Kd: no such file: \"" +
                                                folder + "/lost.png\"; a mid grey is used");
    CHECK(contains(to_string(problems.notes()[1]),
                   "a.mtl:5:8: newmtl: \"shown\" is defined already"));
    CHECK(model.materials[0].diffuse[0] == 0.5F);
    REQUIRE(model.materials.size() == 2);
    CHECK(model.materials[0].diffuse_map.empty());
    CHECK(model.materials[1].diffuse_map.empty());
}
