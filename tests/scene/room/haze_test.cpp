// [haze] and [[haze_box]].
#include "scene/bad_set.h"

using namespace dapple;

namespace {

std::string cloud(const std::string& keys) {
    return "[[haze_box]]\nposition = [0, 0, 0]\n" + keys + kWholeSet;
}

}  // namespace

TEST_CASE("a visibility is the distance at which the contrast has fallen to 2 %") {
    WrittenSet set;
    const Scene scene = set.build_clean("[haze]\nvisibility_m = 40\n" + kWholeSet);
    CHECK(scene.haze.is_there());
    // Koschmieder 1924: 3.912/V.
    CHECK(scene.haze.extinction == doctest::Approx(3.912 / 40).epsilon(1e-4));
    CHECK(scene.haze.height == 0);
    CHECK(scene.haze.forward == near(0.7));
}

TEST_CASE("a set without haze has clear air") {
    WrittenSet set;
    CHECK_FALSE(set.build_clean(kWholeSet).haze.is_there());
}

TEST_CASE("a cloud stands on its position and needs no [haze]") {
    WrittenSet set;
    const Scene scene = set.build_clean(
        "[[haze_box]]\nposition = [1, 0.5, -1]\nsize_m = [2, 3, 1]\nvisibility_m = 5\n" +
        kWholeSet);
    REQUIRE(scene.haze.boxes.size() == 1);
    const HazeBox& box = scene.haze.boxes[0];
    CHECK(box.name == "haze_box 1");
    CHECK(box.centre.y == near(1));
    CHECK(box.half.x == near(1));
    CHECK(box.half.y == near(0.5));
    CHECK(box.half.z == near(1.5));
    CHECK(scene.haze.extinction == 0);
    CHECK(scene.haze.is_there());
}

TEST_CASE("each mistake in haze is reported in one line") {
    WrittenSet set;
    std::string nine;
    for (int i = 0; i < 9; ++i) {
        nine += "[[haze_box]]\nposition = [0, 0, 0]\nsize_m = [1, 1, 1]\nvisibility_m = 9\n";
    }
    check_lines(
        set,
        {{"no visibility",
          "[haze]\nforward = 0.5\n" + kWholeSet,
          "set.toml:1:1: haze: needs visibility_m: how far one sees, in metres"},
         {"too thick",
          "[haze]\nvisibility_m = 0.1\n" + kWholeSet,
          "set.toml:2:1: haze: visibility_m: is 0.1; must be from 0.5 to 10000"},
         {"no height",
          "[haze]\nvisibility_m = 50\nheight_m = 0\n" + kWholeSet,
          "set.toml:3:1: haze: height_m: is 0; must be above 0, up to 1000"},
         {"all light goes on",
          "[haze]\nvisibility_m = 50\nforward = 1\n" + kWholeSet,
          "set.toml:3:1: haze: forward: is 1; must be from -0.95 to 0.95"},
         {"no size",
          cloud("visibility_m = 5\n"),
          "set.toml:1:1: haze_box 1: size_m: is missing; give [along x, along z, height]"},
         {"flat",
          cloud("size_m = [1, 0, 1]\nvisibility_m = 5\n"),
          "set.toml:3:1: haze_box 1: size_m: has 0; all three must be above 0, up to 100"},
         {"no visibility of a cloud",
          cloud("size_m = [1, 1, 1]\n"),
          "set.toml:1:1: haze_box 1: visibility_m: is missing; give how far one sees in its "
          "middle"},
         {"nine clouds",
          nine + kWholeSet,
          "set.toml:33:1: haze_box 9: is one too many; a set may have 8 haze_box tables"}});
}
