// glTF files of every kind give the same model, and their mistakes are one line.
#include <doctest/doctest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <random>

#include "set/gltf/read_gltf.h"
#include "set/models/sample_models.h"
#include "set/obj/obj_helpers.h"

using namespace dapple;
using namespace dapple::test;

namespace {

std::string inline_card(Paint paint) {
    return gltf_card(paint, data_uri(card_buffer()));
}

std::string glb_card(Paint paint) {
    return glb_of(gltf_card(paint, ""), card_buffer());
}

ModelDescription read_clean_gltf(const std::string& bytes) {
    Problems problems;
    ModelDescription model = read_gltf_bytes(bytes, kModels + "card.glb", problems);
    for (const Problem& problem : problems.all()) FAIL_CHECK(to_string(problem));
    CHECK(is_sound(model));
    return model;
}

std::string said_of(const std::string& bytes) {
    Problems problems;
    const ModelDescription model = read_gltf_bytes(bytes, "a/card.gltf", problems);
    if (!problems.empty()) CHECK(model.triangles.empty());
    if (!problems.empty()) return short_text(problems.all().front());
    return problems.notes().empty() ? "" : short_text(problems.notes().front());
}

std::string with(std::string text, const std::string& from, const std::string& to) {
    const size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

void check_is_card(const ModelDescription& model) {
    const Card card;
    REQUIRE(model.positions.size() == 6);
    REQUIRE(model.triangles.size() == 4);
    REQUIRE(model.colours.size() == 6);
    for (size_t i = 0; i < 6; ++i) {
        for (size_t k = 0; k < 3; ++k) {
            CHECK(std::abs(model.positions[i][k] - double{card.positions[i][k]}) < 1e-12);
            // 16 bits
            CHECK(std::abs(model.colours[i][k] - linear_of(card.colours[i][k])) < 1e-5);
        }
        CHECK(std::abs(model.uvs[i][1] - card.uvs[i][1]) < 1e-6F);  // v upwards again
    }
    CHECK(model.materials.at(0).name == "card");
    CHECK(model.materials[0].vertex_colours);
}

}  // namespace

TEST_CASE("buffers in the file, beside it and in a .glb give the same model, moved by its nodes") {
    check_is_card(read_clean_gltf(inline_card(Paint::kColours)));
    check_is_card(read_clean_gltf(glb_card(Paint::kColours)));
    const std::string folder =
        (std::filesystem::temp_directory_path() / ("dapple_gltf_" + std::to_string(getpid())))
            .string();
    std::filesystem::create_directory(folder);
    std::ofstream(folder + "/the card.bin", std::ios::binary) << card_buffer();
    std::ofstream(folder + "/card.gltf") << gltf_card(Paint::kColours, "the%20card.bin");
    Problems problems;
    check_is_card(read_gltf(folder + "/card.gltf", problems));
    CHECK(problems.empty());
    std::filesystem::remove_all(folder);
}

TEST_CASE("a picture is found beside the file, in a data URI or in a buffer") {
    const std::string card = inline_card(Paint::kPicture);
    const auto map_of = [](const std::string& text) {
        return read_clean_gltf(text).materials.at(0).diffuse_map;
    };
    CHECK(map_of(with(card, "card.png", "maps/plank.png")).path == kModels + "maps/plank.png");
    const ModelPicture inside = map_of(with(card, "card.png", data_uri("PNG")));
    REQUIRE(inside.bytes);
    CHECK(*inside.bytes == "PNG");
    CHECK(inside.path == kModels + "card.glb images[0]");
    const ModelPicture in_buffer = map_of(with(card, R"("uri": "card.png")", R"("bufferView": 3)"));
    REQUIRE(in_buffer.bytes);
    CHECK(in_buffer.bytes->size() == 24);
    CHECK(said_of(card) == " images[0]: no such file: \"a/card.png\"; a mid grey is used");
}

TEST_CASE("base colour and alpha become colour and holes") {
    const auto material_of = [](const std::string& more, const std::string& base) {
        return read_clean_gltf(
                   with(with(inline_card(Paint::kPicture), "card.png", "maps/plank.png"),
                        R"({"name": "card", "pbrMetallicRoughness": {"metallicFactor": 0, )",
                        "{" + more + R"("pbrMetallicRoughness": {)" + base))
            .materials.at(0);
    };
    const std::string half = R"("baseColorFactor": [0.25, 0.5, 1, 0.5], )";
    const ModelMaterial opaque = material_of("", half);
    CHECK(opaque.name == "material 1");
    CHECK(opaque.diffuse == std::array<float, 3>{0.25F, 0.5F, 1});
    CHECK(opaque.opacity == 1);
    CHECK(opaque.opacity_map.empty());
    const ModelMaterial blend = material_of(R"("alphaMode": "BLEND", )", half);
    CHECK(blend.opacity == 0.5F);
    CHECK(blend.opacity_cutoff == -1);
    const ModelMaterial mask = material_of(R"("alphaMode": "MASK", "alphaCutoff": 0.2, )", half);
    CHECK(mask.opacity == 1);
    CHECK(mask.opacity_is_alpha);
    CHECK(mask.opacity_cutoff == doctest::Approx(0.4));
}

TEST_CASE("strips, fans and meshes without indices turn as the standard says, mirrored ones too") {
    const auto areas_of = [](const std::string& mode, const std::string& scale) {
        std::string text = with(inline_card(Paint::kColours), R"("indices": 3, )", "");
        text = with(text, R"("material": 0)", R"("material": 0, "mode": )" + mode);
        text = with(text, R"({"mesh": 0, )", R"({"mesh": 0, "scale": )" + scale + ", ");
        const ModelDescription model = read_clean_gltf(text);
        std::vector<double> z;
        for (const ModelTriangle& triangle : model.triangles) {
            const auto p = [&](size_t i) {
                return model.positions[static_cast<size_t>(triangle.corners[i].position)];
            };
            z.push_back(area_vector(p(0), p(1), p(2))[2]);
        }
        return z;
    };
    // The corners run 0 1 2 along the lower edge, then 3 4 5 along the upper one.
    const std::vector<double> triangles = areas_of("4", "[1, 1, 1]");
    REQUIRE(triangles.size() == 2);
    const std::vector<double> strip = areas_of("5", "[1, 1, 1]");
    REQUIRE(strip.size() == 4);
    CHECK(strip[1] == doctest::Approx(-0.75));  // 1 3 2: the second turns the other way
    CHECK(strip[2] == doctest::Approx(-0.75));  // 2 3 4
    const std::vector<double> fan = areas_of("6", "[1, 1, 1]");
    REQUIRE(fan.size() == 4);
    CHECK(fan[1] == doctest::Approx(1.5));  // 0 2 3
    const std::vector<double> mirrored = areas_of("6", "[1, -1, 1]");
    CHECK(mirrored[1] == doctest::Approx(1.5));  // upside down, and still seen from the front
}

TEST_CASE("what is wrong with a glTF file is one line with the place in its JSON") {
    const std::string card = inline_card(Paint::kColours);
    const std::string glb = glb_card(Paint::kColours);
    const std::string draco = R"("extensionsRequired": ["KHR_draco_mesh_compression"], "scene")";
    const struct {
        std::string bytes, says;
    } rows[] = {
        {"{\"asset\":\n{\"version\" \"2.0\"}}", " is not glTF: its JSON has a mistake in line 2"},
        {"{}", " asset.version: is \"\"; must be 2.0"},
        {with(card, "\"2.0\"", "\"1.0\""), " asset.version: is \"1.0\"; must be 2.0"},
        {with(card, R"("scene")", draco),
         " extensionsRequired: has \"KHR_draco_mesh_compression\", which is not read; export the "
         "model again without compression"},
        {with(card, R"("children": [1])", R"("children": [0])"),
         " nodes[0]: is reached twice; nodes must form a tree"},
        {with(card, R"("children": [1])", R"("children": [7])"),
         " nodes[0].children[0]: is 7, but nodes has 2"},
        {with(card, R"("children": [1])", R"("children": 1)"),
         " nodes[0].children: must be a list, in [ ]"},
        {with(card, R"("count": 12)", R"("count": 13)"),
         " accessors[3]: has 13 values; its 24 bytes are too few"},
        {with(card, R"("count": 12)", R"("count": -1)"),
         " accessors[3].count: must be a whole number, 0 or above"},
        {with(card, R"("byteOffset": 168)", R"("byteOffset": 170)"),
         " bufferViews[3]: needs 194 bytes; its buffer has 192 (the file may be cut off)"},
        {with(card, R"("count": 6},)", R"("count": 5},)"),
         " meshes[0].primitives[0].indices: a triangle uses vertex 5; there are 5, counted from 0 "
         "(2 triangles in all)"},
        {with(card, "base64,", "base64,*"), " buffers[0].uri: is not data in base64"},
        {gltf_card(Paint::kColours, "https://example.org/a.bin"),
         " buffers[0].uri: is \"https://example.org/a.bin\"; must be a file on this machine"},
        {gltf_card(Paint::kColours, "lost.bin"), " buffers[0].uri: no such file: \"a/lost.bin\""},
        {glb.substr(0, glb.size() - 8), " is cut off: a part needs 192 bytes, 184 are there"},
        {glb.substr(0, 60), ""},
    };
    for (const auto& row : rows) {
        CAPTURE(row.bytes.substr(0, 300));
        if (row.says.empty()) {
            CHECK(said_of(row.bytes).starts_with(" is cut off: a part needs "));
        } else {
            CHECK(said_of(row.bytes) == row.says);
        }
    }
}

TEST_CASE("damaged glTF files are read safely") {
    std::mt19937 random(23);
    const auto below = [&](size_t count) { return random() % count; };
    const char* const words[] = {
        "-1", "1e300", "[]", "{}", "null", "\"\"", "0.5", "99999999999", "2"};
    int sound = 0;
    for (int i = 0; i < 1500; ++i) {
        std::string bytes = i % 2 ? inline_card(Paint::kColours) : glb_card(Paint::kPicture);
        for (size_t n = 1 + below(3); n > 0; --n) {
            const size_t digit = bytes.find_first_of("0123456789", below(bytes.size()));
            if (below(2) == 0 && digit != std::string::npos) {
                bytes.replace(digit, 1, words[below(std::size(words))]);
            } else if (below(4) == 0) {
                bytes.erase(below(bytes.size()), 1 + below(9));
            } else {
                bytes[below(bytes.size())] = static_cast<char>(below(256));
            }
        }
        Problems problems;
        const ModelDescription model = read_gltf_bytes(bytes, kModels + "damaged.glb", problems);
        REQUIRE(is_sound(model));
        REQUIRE((problems.empty() || model.triangles.empty()));
        sound += problems.empty();
    }
    CHECK(sound > 30);
}
