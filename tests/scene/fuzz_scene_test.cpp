// Sets and models with changed bytes build a scene or give problems, and never cause a crash. Run
// these tests with the address and undefined-behaviour sanitizers too (tools/build asan).
#include <cmath>

#include "base/random.h"
#include "scene/photometry/photometric_files.h"
#include "scene/written_set.h"
#include "set/full_example.h"

using namespace dapple;

namespace {

std::string with_changes(std::string text, RandomStream& random) {
    const uint32_t changes = 1 + random.next_bits() % 3;
    for (uint32_t i = 0; i < changes; ++i) {
        const size_t at = random.next_bits() % text.size();
        // Mostly digits and signs, so that the file can be read but has odd numbers.
        const char* wild = "0123456789-.e\n\x80";
        text[at] = wild[random.next_bits() % 15];
    }
    return text;
}

// Checks what later stages rely on in a scene without problems.
void check_promises(const Scene& scene) {
    REQUIRE(scene.camera.width > 0);
    REQUIRE(is_finite(scene.camera.position));
    REQUIRE(std::abs(glm::length(scene.camera.frame.n) - 1) < 1e-4F);
    for (const Fixture& fixture : scene.fixtures) {
        REQUIRE(is_finite(fixture.position));
        REQUIRE((fixture.output_value > 0 || fixture.photometry.has_value()));
        if (fixture.form == FixtureForm::kSpot) REQUIRE(fixture.field_angle > fixture.beam_angle);
    }
    for (const Mesh& mesh : scene.room) {
        REQUIRE(mesh.materials.size() == mesh.triangles.size());
        for (const Point& p : mesh.positions) REQUIRE(is_finite(p));
    }
    for (const Material& material : scene.materials) {
        REQUIRE(material.reflectance.x + material.transmission <= 1 + 1e-5F);
    }
}

void write_models(WrittenSet& set, const std::string& room, const std::string& mtl) {
    set.file("boathouse.obj", room).file("a.mtl", mtl);
    set.file("block.obj", cube_obj())
        .file("net.ies", test::kQuarterIes)
        .file("rose.csv", "400,0.5\n700,1\n")
        .file("wood.png", "");
}

std::string room_obj() {
    std::string text = "mtllib a.mtl\n";
    int first = 1;
    for (const char* name : {"slipway", "cape", "bracket", "pane", "planks"}) {
        text += std::string("usemtl ") + name + "\n" + cube_obj(first);
        first += 8;
    }
    text += "usemtl sky\nv -0.4 0.2 2\nv 0.4 0.2 2\nv 0.4 0.4 2\nv -0.4 0.4 2\n";
    for (int i = 0; i < 4; ++i) text += (i == 0 ? "f " : " ") + std::to_string(first + i);
    return text + "\n";
}

const std::string kMtl =
    "newmtl slipway\nKd 0.1 0.1 0.1\nnewmtl cape\nnewmtl bracket\nnewmtl pane\nd 0.5\nnewmtl "
    "planks\nKd 1 1 1\nmap_Kd wood.png\nnewmtl sky\n";

}  // namespace

TEST_CASE("a set with all keys builds a scene without a problem") {
    WrittenSet set;
    write_models(set, room_obj(), kMtl);
    const Scene scene = set.build_clean(kFullExample);
    CHECK(scene.fixtures.size() == 4);  // with the window
    CHECK(scene.glasses.size() == 2);
    CHECK(scene.boards.size() == 3);
    CHECK(scene.columns.size() == 1);
    CHECK(scene.stand_ins.size() == 1);
    check_promises(scene);
}

TEST_CASE("a set with all keys of a room of size_m builds a scene without a problem") {
    WrittenSet set;
    const Scene scene = set.build_clean(kTapeExample);
    CHECK(scene.fixtures.size() == 1);
    CHECK(scene.boards.size() == 1);
    CHECK(scene.columns.size() == 1);
    check_promises(scene);
}

TEST_CASE("a set with changed bytes builds a valid scene or has problems") {
    WrittenSet set;
    write_models(set, room_obj(), kMtl);
    RandomStream random(11, 0, 0, Purpose::kTest);
    int built = 0;
    for (int round = 0; round < 800; ++round) {
        const Scene scene =
            set.build(with_changes(round % 8 == 0 ? kTapeExample : kFullExample, random));
        if (!set.problems.empty()) continue;
        check_promises(scene);
        ++built;
    }
    CHECK(built > 30);  // one in twenty is valid, mostly where digits changed
}

TEST_CASE("a model with changed bytes builds a valid scene or has problems") {
    WrittenSet set;
    RandomStream random(12, 0, 0, Purpose::kTest);
    int built = 0;
    for (int round = 0; round < 300; ++round) {
        write_models(set, with_changes(room_obj(), random), with_changes(kMtl, random));
        const Scene scene = set.build(kFullExample);
        if (!set.problems.empty()) continue;
        check_promises(scene);
        ++built;
    }
    CHECK(built > 10);
}
