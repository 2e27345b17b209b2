// Fixtures are reported if a wall separates them from the camera, and no others.
#include "scene/written_set.h"

using namespace dapple;

namespace {

// An OBJ box between two corners, with the first `faces` of its six faces, all facing outward. The
// lid is the last one.
std::string box(const Vec3& low, const Vec3& high, int faces = 6) {
    static const char* const kFaces[] = {
        "-4 -3 -2 -1", "-7 -8 -5 -6", "-8 -4 -1 -5", "-3 -7 -6 -2", "-8 -7 -3 -4", "-1 -2 -6 -5"};
    std::string text;
    for (const float z : {low.z, high.z}) {
        for (const auto& [x, y] : {std::pair(low.x, low.y),
                                   std::pair(high.x, low.y),
                                   std::pair(high.x, high.y),
                                   std::pair(low.x, high.y)}) {
            text +=
                "v " + std::to_string(x) + " " + std::to_string(y) + " " + std::to_string(z) + "\n";
        }
    }
    for (int i = 0; i < faces; ++i) text += std::string("f ") + kFaces[i] + "\n";
    return text;
}

const std::string kModel = "[room]\nmodel = \"room.obj\"\n";

std::string bare_lamp(const std::string& position) {
    return "[[fixture]]\nname = \"key\"\nform = \"bare\"\noutput_lm = 100\nposition = " + position +
           "\n";
}

// The problems of a set with a camera at (0, 1, 2) and a lamp, in a room of these OBJ lines.
std::vector<std::string> problems_of(const std::string& obj,
                                     const std::string& lamp,
                                     const std::string& more = "") {
    WrittenSet set;
    set.file("room.obj", obj);
    set.build(bare_lamp(lamp) + kModel + kCamera + more);
    return set.lines();
}

const std::string kWalls = "usemtl walls\n" + box(Vec3(-3, 0, -3), Vec3(3, 3, 3));
// A pillar from floor to ceiling: two of its faces are in those of the room.
const std::string kPillar = "usemtl pillar\n" + box(Vec3(1, 0, 1), Vec3(1.4F, 3, 1.4F));
const std::string kInPillar = "[1.2, 1.5, 1.2]";

}  // namespace

TEST_CASE("a fixture inside a pillar is reported, one beside it is not") {
    const std::vector<std::string> lines = problems_of(kWalls + kPillar, kInPillar);
    REQUIRE(lines.size() == 1);
    CHECK(lines[0] ==
          "set.toml:5:1: fixture \"key\": position: is separated from the camera by \"pillar\", a "
          "closed surface around one of the two");
    CHECK(problems_of(kWalls + kPillar, "[0.8, 1.5, 1.2]").empty());
}

TEST_CASE("a fixture between the two faces of a thick wall is reported") {
    const std::string thick = kWalls + box(Vec3(-3.3F, -0.3F, -3.3F), Vec3(3.3F, 3.3F, 3.3F));
    CHECK(problems_of(thick, "[3.15, 1, 0]").size() == 1);
    CHECK(problems_of(thick, "[2.9, 1, 0]").empty());
}

TEST_CASE("a fixture outside a room without openings is reported, outside an open room it is not") {
    CHECK(problems_of(kWalls, "[0, 5, 0]").size() == 1);
    const std::string roofless = "usemtl walls\n" + box(Vec3(-3, 0, -3), Vec3(3, 3, 3), 5);
    CHECK(problems_of(roofless, "[0, 5, 0]").empty());
}

TEST_CASE("a lamp in an open can, a paper lantern or a glass case is not reported") {
    const std::string can = "usemtl can\n" + box(Vec3(1, 0, 1), Vec3(1.4F, 3, 1.4F), 5);
    CHECK(problems_of(kWalls + can, kInPillar).empty());
    const std::string surface = "[[surface]]\nname = \"pillar\"\n";
    CHECK(problems_of(kWalls + kPillar, kInPillar, surface + "transmission = 0.4\n").empty());
    CHECK(problems_of(kWalls + kPillar, kInPillar, surface + "glass = \"soda-lime\"\nthin = true\n")
              .empty());
}

TEST_CASE("in a box room the camera and the fixtures must be between the walls") {
    WrittenSet set;
    set.build(bare_lamp("[2.1, 1, 0]") + kRoom + kCamera);
    REQUIRE(set.lines().size() == 1);
    CHECK(set.lines()[0] ==
          "set.toml:5:1: fixture \"key\": position: is outside the room: x is 2.1; must be from "
          "-2 to 2");
    set.build(bare_lamp("[1, 1, 0]") + kRoom +
              "[camera]\nposition = [0, 3.5, 0]\naim = [0, 1, 1]\n");
    REQUIRE(set.lines().size() == 1);
    CHECK(set.lines()[0] ==
          "set.toml:9:1: camera: position: is outside the room: y is 3.5; must be from 0 to 3");
    set.build(bare_lamp("[2, 3, -2.5]") + kRoom + kCamera);  // exactly in the corner
    CHECK(set.lines().empty());
}
