#include "scene/named_places.h"

#include "scene/bad_set.h"

namespace dapple {

namespace {

// A room of 4 × 5 × 3 m with one thing of each kind.
const std::string kThings =
    "[[stand_in]]\nname = \"lay\"\nposition = [0.5, 0, -1]\nheight_m = 2.0\n"
    "[[glass]]\nname = \"jar\"\nform = \"jar\"\nposition = [1, 0.5, 0]\nheight_mm = 200\n"
    "[[column]]\nname = \"pillar\"\nposition = [-1, 0, -1]\ndiameter_m = 0.3\nheight_m = 2\n"
    "[[door]]\nname = \"way out\"\nwall = \"wall_right\"\ncentre_m = [0.5, 1]\nsize_m = [0.8, 2]\n"
    "[[meter]]\nname = \"hand\"\nposition = [0.1, 1.1, -0.5]\nfacing = \"camera\"\n"
    "[[region]]\nname = \"behind\"\nsurface = \"wall_back\"\n";

// The aim of a fixture that is aimed at `thing`.
Point aim_at(WrittenSet& set, const std::string& thing) {
    const Scene scene = set.build_clean(
        kRoom + kCamera + kThings + "[[fixture]]\nname = \"net\"\nposition = [1, 2, 1]\naim = \"" +
        thing + "\"\nbeam_angle_deg = 30\noutput_lm = 100\n");
    REQUIRE(scene.fixtures.size() == 1);
    return scene.fixtures[0].aim.value_or(Point(NAN));
}

void check_at(const Point& at, double x, double y, double z) {
    CHECK(at.x == near(x));
    CHECK(at.y == near(y));
    CHECK(at.z == doctest::Approx(z).epsilon(1e-3));
}

}  // namespace

TEST_CASE("a fixture may be aimed at everything that has a place and a name") {
    WrittenSet set;
    check_at(aim_at(set, "lay"), 0.5, 1.44, -1);
    check_at(aim_at(set, "lay face"), 0.5, 1.87, -1);
    check_at(aim_at(set, "figure"), 0.5, 1.44, -1);
    check_at(aim_at(set, "face"), 0.5, 1.87, -1);
    check_at(aim_at(set, "lay hair"), 0.5, 1.87, -1);
    check_at(aim_at(set, "camera"), 0, 1, 2);
    CHECK(aim_at(set, "jar").y == doctest::Approx(0.6).epsilon(1e-3));
    check_at(aim_at(set, "pillar"), -1, 1, -1);
    CHECK(aim_at(set, "way out").x == doctest::Approx(2).epsilon(1e-3));
    check_at(aim_at(set, "hand"), 0.1, 1.1, -0.5);
    check_at(aim_at(set, "floor"), 0, 0, 0);
    for (const char* wall : {"wall_back", "back wall", "behind"}) {
        check_at(aim_at(set, wall), 0, 1.5, -2.5);
    }
}

TEST_CASE("the lens, a meter, a board and a figure may face a thing") {
    WrittenSet set;
    const Scene scene = set.build_clean(
        kRoom + "[camera]\nposition = [0, 1, 2]\naim = \"lay\"\n" + kThings + kFixture +
        "[[flag]]\nname = \"wing\"\nposition = [1, 1, 1]\naim = \"key\"\nsize_m = [0.3, 0.3]\n"
        "[[stand_in]]\nname = \"other\"\nposition = [0.5, 0, 1]\nfacing = \"lay\"\n");
    check_at(scene.camera.aim, 0.5, 1.44, -1);
    check_at(scene.meters[0].aim, 0, 1, 2);
    const Board& wing = scene.boards.back();
    REQUIRE(wing.aim.has_value());
    check_at(*wing.aim, 1, 2, 1);
    CHECK(std::abs(scene.stand_ins[1].turn) == near(kPiF));
    CHECK(scene.stand_ins[0].turn == 0);
}

TEST_CASE("a meter may be held before a figure, a surface or a board") {
    const std::string figure = "[[stand_in]]\nname = \"lay\"\nposition = [0.5, 0, -1]\n";
    const auto meter_at = [&](const std::string& position, const std::string& facing) {
        WrittenSet set;
        return set
            .build_clean(kRoom + kCamera + kFixture + figure + "[[meter]]\nname = \"face\"\n" +
                         "position = \"" + position + "\"\nfacing = " + facing + "\n")
            .meters[0]
            .position;
    };
    // 0.15 heights of 1.70 m before the middle of the head, level, on the side that it faces.
    check_at(meter_at("figure face", "[0.5, 3, 2]"), 0.5, 1.5895, -0.745);
    check_at(meter_at("lay face", "[0.5, 3, -2.4]"), 0.5, 1.5895, -1.255);
    check_at(meter_at("face", "[1.9, 1.0, -1]"), 0.755, 1.5895, -1);
    // Straight up has no side: the one that the figure faces.
    check_at(meter_at("face", "[0.5, 3, -1]"), 0.5, 1.5895, -0.745);
    check_at(meter_at("figure", "[0.5, 1, 2]"), 0.5, 1.224, -0.592);
    check_at(meter_at("back wall", "[0, 1.5, 2]"), 0, 1.5, -2.48);
    WrittenSet set;
    check_lines(
        set,
        {{"in a lamp",
          kWholeSet + "[[meter]]\nposition = \"key\"\nfacing = [0, 1, 0]\n",
          "set.toml:13:1: meter 1: position: is \"key\", and a meter cannot be inside it; name a "
          "figure (\"figure face\"), a surface or a board, or give a point [x, y, z]"},
         {"before nothing",
          kWholeSet + "[[meter]]\nposition = \"figure face\"\nfacing = [0, 1, 0]\n",
          "set.toml:13:1: meter 1: position: is \"figure face\"; nothing in the set has this "
          "name; give [x, y, z] or one of \"camera\", \"key\", \"meter 1\", \"floor\", "
          "\"ceiling\", \"wall_left\", \"wall_right\", \"wall_back\", \"wall_front\""},
         {"two meters by name",
          kWholeSet + figure +
              "[[meter]]\nname = \"a\"\nposition = \"lay\"\nfacing = \"b\"\n"
              "[[meter]]\nname = \"b\"\nposition = \"lay\"\nfacing = [0, 1, 0]\n",
          "set.toml:18:1: meter \"a\": facing: is \"b\", a meter whose own position is a name; "
          "give [x, y, z]"}});
}

TEST_CASE("the lens may be focused on a thing by its name") {
    const std::string figure = "[[stand_in]]\nname = \"lay\"\nposition = [0, 0, -1]\n";
    const auto focus_on = [&](const std::string& thing) {
        WrittenSet set;
        return set
            .build_clean(kRoom + "[camera]\nposition = [0, 1, 2]\naim = [0, 1, -1]\nfocus_m = \"" +
                         thing + "\"\n" + kFixture + figure)
            .camera.focus_distance;
    };
    // 3 m to the middle of the figure, along the axis; its near side is sharp.
    CHECK(focus_on("figure face") == near(3 - 0.06 * 1.7));
    CHECK(focus_on("lay") == near(3 - 0.066 * 1.7));
    CHECK(focus_on("wall_back") == near(4.5));
    CHECK(focus_on("8 ft") == near(2.4384));
    WrittenSet set;
    const std::string before = kRoom + "[camera]\nposition = [0, 1, 2]\naim = [0, 1, -1]\n";
    check_lines(set,
                {{"a name that nothing has",
                  before + "focus_m = \"sitter\"\n" + kFixture,
                  "set.toml:6:1: camera: focus_m: is \"sitter\"; nothing in the set has this name; "
                  "give a distance such as 3.2 or one of \"camera\", \"key\", \"floor\", "
                  "\"ceiling\", \"wall_left\", \"wall_right\", \"wall_back\", \"wall_front\""},
                 {"behind the camera",
                  before + "focus_m = \"wall_front\"\n" + kFixture,
                  "set.toml:6:1: camera: focus_m: is \"wall_front\", which is behind the camera"}});
}

TEST_CASE("a seated figure that is turned has its chest where its trunk is") {
    WrittenSet set;
    const Scene scene = set.build_clean(
        kRoom + kCamera +
        "[[stand_in]]\nname = \"she\"\npose = \"seated\"\nheight_m = 1.0\n"
        "position = [0, 0, 0]\nturn_deg = 90\n"
        "[[fixture]]\nname = \"net\"\nposition = [1, 2, 1]\naim = \"she\"\nbeam_angle_deg = 30\n"
        "output_lm = 100\n");
    // It faces +x, so its trunk is towards -x of its feet.
    const Point at = scene.fixtures[0].aim.value_or(Point(0));
    CHECK(at.x == near(-0.265));
    CHECK(at.y == near(0.475));
    CHECK(std::abs(at.z) < 1e-6F);
}

TEST_CASE("values may have units, and a wrong one says how to write it") {
    WrittenSet set;
    const Scene scene = set.build_clean(
        "[room]\nsize_m = [\"4 m\", \"500 cm\", 3]\n"
        "[camera]\nposition = [0, \"5 ft\", 2]\naim = \"back wall\"\nf_number = \"f/4\"\n"
        "shutter_s = \"1/50\"\niso = \"ISO 400\"\nfocal_length_mm = \"3.5 cm\"\n"
        "[[fixture]]\nname = \"net\"\nposition = [1, 2, 1]\naim = [0, 1, 0]\n"
        "beam_angle_deg = \"30\xc2\xb0\"\noutput_lm = \"900 lm\"\ndimmer = \"50%\"\n"
        "[[stand_in]]\nposition = [0, 0, 0]\nskin = \"30%\"\nheight_m = \"5'11\\\"\"\n");
    CHECK(scene.camera.position.y == near(1.524));
    CHECK(scene.camera.f_number == 4);
    CHECK(scene.camera.shutter == near(0.02));
    CHECK(scene.camera.iso == 400);
    CHECK(scene.camera.focal_length == near(0.035));
    CHECK(scene.fixtures[0].dimmer == 0.5F);
    CHECK(scene.stand_ins[0].height == near(1.8034));
    CHECK(scene.materials[static_cast<size_t>(scene.stand_ins[0].skin)].reflectance.x == near(0.3));

    check_lines(
        set,
        {{"no f-number",
          kRoom + "[camera]\nposition = [0, 1, 2]\naim = [0, 1, 0]\nf_number = \"f4.5.6\"\n" +
              kFixture,
          "set.toml:6:12: camera: f_number: is \"f4.5.6\", which is no number; write 4 or "
          "\"f/4\""},
         {"a length in words",
          kRoom + "[camera]\nposition = [0, \"head high\", 2]\naim = [0, 1, 0]\n" + kFixture,
          "set.toml:4:16: camera: position: is \"head high\", which is no number; write 1.2, "
          "\"1.2 m\", \"80 cm\" or \"6 ft 2 in\""},
         {"a share beyond its range",
          kWholeSet + "dimmer = \"150%\"\n",
          "set.toml:12:1: fixture \"key\": dimmer: is 1.5; must be from 0 to 1"}});
}

TEST_CASE("a name that nothing has is reported with the names that there are") {
    WrittenSet set;
    const std::string figure = "[[stand_in]]\nname = \"figure\"\nposition = [0, 0, -1]\n";
    check_lines(
        set,
        {{"a misspelt figure",
          kRoom + "[camera]\nposition = [0, 1, 2]\naim = \"figrue\"\n" + figure + kFixture,
          "set.toml:5:1: camera: aim: is \"figrue\"; nothing in the set has this name; did you "
          "mean \"figure\"?"},
         {"a thing that is not there",
          kRoom + "[camera]\nposition = [0, 1, 2]\naim = \"moonlight\"\n" + kFixture,
          "set.toml:5:1: camera: aim: is \"moonlight\"; nothing in the set has this name; give [x, "
          "y, z] or one of \"camera\", \"key\", \"floor\", \"ceiling\", \"wall_left\", "
          "\"wall_right\", \"wall_back\", \"wall_front\""},
         {"a region of the frame",
          kWholeSet + "[[region]]\nname = \"corner\"\nrect_px = [0, 0, 10, 10]\n" +
              "[[meter]]\nposition = [0, 1, 0]\nfacing = \"corner\"\n",
          "set.toml:17:1: meter 1: facing: is \"corner\", a part of the frame alone; name a "
          "surface, "
          "a thing, or a point [x, y, z]"},
         {"itself",
          kRoom + kCamera +
              "[[fixture]]\nname = \"key\"\nposition = [1, 2, 1]\naim = \"key\"\n"
              "beam_angle_deg = 30\noutput_lm = 1000\n",
          "set.toml:9:1: fixture \"key\": aim: equals the position: the fixture aims nowhere"},
         {"a figure with two ways to face",
          kWholeSet + "[[stand_in]]\nposition = [0, 0, 1]\nturn_deg = 10\nfacing = \"camera\"\n",
          "set.toml:15:1: stand_in 1: facing: is given beside turn_deg; give only one of them"}});
}

}  // namespace dapple
