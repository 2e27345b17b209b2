// Damaged files never cause a crash, a hang or an invalid index. With the address and
// undefined-behaviour sanitizers (tools/build asan) the tests also find reads out of bounds.
#include <doctest/doctest.h>

#include <fstream>
#include <iterator>
#include <random>

#include "obj_helpers.h"
#include "set/obj/obj_mtl.h"

using namespace dapple;

namespace {

std::string file_bytes(const std::string& name) {
    std::ifstream stream(kModels + name, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
}

const char* const kObjFiles[] = {
    "box_windows.obj", "every_word.obj", "letters.obj", "name with blanks.obj"};
const char* const kMtlFiles[] = {"paint.mtl", "letters.mtl", "paint and varnish.mtl"};

// The text is in a block of exactly its size, so that a sanitizer finds a read of the byte after
// it.
void read_both_ways(const std::string& text) {
    const std::vector<char> bytes(text.begin(), text.end());
    const std::string_view view(bytes.data(), bytes.size());
    Problems problems;
    const ModelDescription model = read_obj_text(view, kModels + "damaged.obj", problems);
    CHECK(is_sound(model));
    CHECK((!problems.empty() || !model.triangles.empty()));
    CHECK(model.triangles.size() <= bytes.size());

    Problems mtl_problems;
    std::vector<ModelMaterial> materials;
    read_mtl_text(view, kModels + "damaged.mtl", materials, mtl_problems);
    CHECK(materials.size() <= bytes.size());
    for (const ModelMaterial& material : materials) {
        CHECK((material.opacity >= 0 && material.opacity <= 1));
        for (const float value : material.diffuse) CHECK((value >= 0 && value <= 1));
    }
    CHECK(mtl_problems.all().size() <= 21);
}

// Words and signs that the reader treats specially, which find more errors than random bytes.
const char* const kTricky[] = {
    "\\\n",         "\\",          "\r",        "#",           "/",     "//",
    "f ",           "-",           "\0",        "nan",         "1e999", "99999999999",
    "\nv",          "\nf 1 2 3",   "\nusemtl",  "\nmtllib",    " -s ",  "\"",
    "\xef\xbb\xbf", "-2147483648", "\nnewmtl ", "\nmap_Kd -s "};

std::string damage(std::string text, std::mt19937& random) {
    const auto below = [&](size_t count) { return random() % count; };
    const int changes = 1 + static_cast<int>(below(8));
    for (int i = 0; i < changes && !text.empty(); ++i) {
        const size_t at = below(text.size());
        switch (below(5)) {
            case 0:
                text[at] = static_cast<char>(below(256));
                break;
            case 1:
                text[at] = static_cast<char>(text[at] ^ (1 << below(8)));
                break;
            case 2:
                text.insert(at, kTricky[below(std::size(kTricky))]);
                break;
            case 3:
                text.erase(at, 1 + below(20));
                break;
            default:
                text.insert(at, text.substr(below(text.size()), below(40)));
        }
    }
    return text;
}

}  // namespace

TEST_CASE("models cut off anywhere are read safely") {
    for (const char* name : kObjFiles) {
        const std::string text = file_bytes(name);
        REQUIRE(!text.empty());
        for (size_t size = 0; size <= text.size(); size += 3) read_both_ways(text.substr(0, size));
    }
    for (const char* name : kMtlFiles) {
        const std::string text = file_bytes(name);
        REQUIRE(!text.empty());
        for (size_t size = 0; size <= text.size(); ++size) read_both_ways(text.substr(0, size));
    }
}

TEST_CASE("models with damaged bytes are read safely") {
    std::mt19937 random(20);
    std::vector<std::string> texts;
    for (const char* name : kObjFiles) texts.push_back(file_bytes(name));
    for (const char* name : kMtlFiles) texts.push_back(file_bytes(name));
    for (int i = 0; i < 2000; ++i) read_both_ways(damage(texts[random() % texts.size()], random));
}

TEST_CASE("random bytes are read safely") {
    std::mt19937 random(21);
    const std::string letters = "vfntsd 0123456789/-+.e\n\n\r\t\\#\"KTrmapusemtlib";
    for (int i = 0; i < 1000; ++i) {
        std::string text;
        for (size_t k = random() % 400; k > 0; --k) {
            text +=
                i % 2 == 0 ? static_cast<char>(random() % 256) : letters[random() % letters.size()];
        }
        read_both_ways(text);
    }
}

TEST_CASE("long words, long lines and long names are read quickly" * doctest::timeout(20)) {
    const std::string ones(1 << 17, '1');
    std::string blanks;
    for (int i = 0; i < (1 << 16); ++i) blanks += "1 ";
    std::string joins;
    for (int i = 0; i < (1 << 16); ++i) joins += "\\ ";
    for (const std::string& longest : {ones, blanks, joins, std::string(1 << 17, '\\')}) {
        for (const char* key : {"v ",
                                "f ",
                                "s ",
                                "usemtl ",
                                "mtllib ",
                                "vt 0 ",
                                "",
                                "newmtl a\nKd ",
                                "newmtl ",
                                "newmtl a\nmap_Kd -s ",
                                "newmtl a\nd "}) {
            read_both_ways("v 0 0 0\n" + std::string(key) + longest + "\nf 1 1 1\n");
        }
    }
}
