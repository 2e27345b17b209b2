// Mistakes in the other tables of a set, and in several tables at once.
#include "scene/bad_set.h"

using namespace dapple;

TEST_CASE("each mistake in a camera is reported in one line") {
    const std::string at = "[camera]\nposition = [0, 1, 2]\n";
    const std::string camera = at + "aim = [0, 1, 0]\n";
    WrittenSet set;
    check_lines(set,
                {{"none", kAllButCamera, "set.toml: camera: is missing; a set needs one [camera]"},
                 {"no position",
                  "[camera]\naim = [0, 1, 0]\n" + kAllButCamera,
                  "set.toml:1:1: camera: position: is missing; give [x, y, z] in metres"},
                 {"no aim",
                  at + kAllButCamera,
                  "set.toml:1:1: camera: aim: is missing; give [x, y, z] in metres"},
                 {"looking nowhere",
                  at + "aim = [0, 1, 2.0]\n" + kAllButCamera,
                  "set.toml:3:1: camera: aim: equals the position: the camera looks nowhere"},
                 {"far away",
                  "[camera]\nposition = [0, 1e30, 2]\naim = [0, 0, 0]\n" + kAllButCamera,
                  "set.toml:2:1: camera: position: has 1e+30; must be within 100000 m"},
                 {"negative focal length",
                  camera + "focal_length_mm = -35\n" + kAllButCamera,
                  "set.toml:4:1: camera: focal_length_mm: is -35; must be above 0, up to 10000"},
                 {"no pixels",
                  camera + "frame_px = [0, 640]\n" + kAllButCamera,
                  "set.toml:4:1: camera: frame_px: has 0; both must be from 1 to 16384"},
                 {"too many pixels",
                  camera + "frame_px = [960, 16385]\n" + kAllButCamera,
                  "set.toml:4:1: camera: frame_px: has 16385; both must be from 1 to 16384"},
                 {"flat sensor",
                  camera + "sensor_mm = [36, 0]\n" + kAllButCamera,
                  "set.toml:4:1: camera: sensor_mm: has 0; both must be above 0, up to 1000"},
                 {"focus inside the lens",
                  camera + "focal_length_mm = 50\nfocus_m = 0.05\n" + kAllButCamera,
                  "set.toml:5:1: camera: focus_m: is 0.05; must be above the focal length, 0.05 m"},
                 {"white of no light",
                  camera + "white_k = 43\n" + kAllButCamera,
                  "set.toml:4:1: camera: white_k: is 43; must be from 1500 to 25000"}});
}

TEST_CASE("each mistake in a board, meter, region, window or stand-in is reported in one line") {
    const std::string place = "position = [0, 1, 0]\naim = [0, 1, 1]\n";
    WrittenSet set;
    check_lines(
        set,
        {{"board without a size",
          "[[flag]]\n" + place + kWholeSet,
          "set.toml:1:1: flag 1: needs exactly one of size_m = [width, height] and diameter_m"},
         {"board with two sizes",
          "[[flag]]\n" + place + "size_m = [1, 1]\ndiameter_m = 1\n" + kWholeSet,
          "set.toml:5:1: flag 1: needs exactly one of size_m = [width, height] and diameter_m"},
         {"negative size",
          "[[bounce]]\n" + place + "size_m = [1, -1]\n" + kWholeSet,
          "set.toml:4:1: bounce 1: size_m: has -1; both must be above 0, up to 100"},
         {"looks nowhere",
          "[[flag]]\nposition = [0, 1, 0]\naim = [0, 1, 0]\ndiameter_m = 1\n" + kWholeSet,
          "set.toml:3:1: flag 1: aim: equals the position: its face looks nowhere"},
         {"diffuser that gives light",
          "[[diffuser]]\n" + place + "diameter_m = 1\ntransmission = 1.5\n" + kWholeSet,
          "set.toml:5:1: diffuser 1: transmission: is 1.5; must be from 0 to 1"},
         {"meter facing nowhere",
          "[[meter]]\nname = \"m\"\nposition = [0, 1, 0]\nfacing = [0, 1, 0]\n" + kWholeSet,
          "set.toml:4:1: meter \"m\": facing: equals the position: the meter faces nowhere"},
         {"meter with an unknown receptor",
          "[[meter]]\nname = \"m\"\nposition = [0, 1, 0]\nfacing = [0, 2, 0]\nreceptor = "
          "\"dom\"\n" +
              kWholeSet,
          "set.toml:5:1: meter \"m\": receptor: is \"dom\"; must be one of flat, dome; did you "
          "mean "
          "dome?"},
         {"meter of two sizes",
          "[[meter]]\nname = \"m\"\nposition = [0, 1, 0]\nfacing = [0, 2, 0]\nreceptor_mm = 20\n"
          "size_m = [1, 1]\n" +
              kWholeSet,
          "set.toml:6:1: meter \"m\": size_m: reads the mean over a flat area; leave out receptor "
          "= "
          "\"dome\" and receptor_mm, or size_m"},
         {"region of an unknown surface",
          "[[region]]\nname = \"r\"\nsurface = \"wall_bak\"\n" + kWholeSet,
          "set.toml:3:1: region \"r\": surface: is \"wall_bak\"; the room has no surface of this "
          "name; did you mean \"wall_back\"?"},
         {"region outside the frame",
          "[[region]]\nname = \"r\"\nrect_px = [0, 0, 961, 640]\n" + kWholeSet,
          "set.toml:3:1: region \"r\": rect_px: must be [x0, y0, x1, y1] with x0 < x1 and y0 < y1 "
          "inside the frame of 960 x 640 px"},
         {"region of nothing",
          "[[region]]\nname = \"r\"\n" + kWholeSet,
          "set.toml:1:1: region \"r\": needs surface or rect_px, or both"},
         {"two regions of a name",
          "[[region]]\nname = \"r\"\nsurface = \"floor\"\n[[region]]\nname = \"r\"\nsurface = "
          "\"floor\"\n" +
              kWholeSet,
          "set.toml:5:1: region \"r\": name: is used twice, first in line 2; names must differ"},
         {"window in no wall",
          "[[window]]\nsurface = \"sky\"\nluminance_cd_m2 = 5\n" + kWholeSet,
          "set.toml:2:1: window 1: surface: is \"sky\"; the room has no surface of this name; "
          "there are \"floor\", \"ceiling\", \"wall_left\", "
          "\"wall_right\", \"wall_back\", \"wall_front\""},
         {"giant",
          "[[stand_in]]\nposition = [0, 0, 0]\nheight_m = 17\n" + kWholeSet,
          "set.toml:3:1: stand_in 1: height_m: is 17; must be from 0.3 to 2.5"},
         {"figure in no pose",
          "[[stand_in]]\nposition = [0, 0, 0]\npose = \"seeted\"\n" + kWholeSet,
          "set.toml:3:1: stand_in 1: pose: is \"seeted\"; must be one of standing, seated, "
          "arm_raised; did you mean seated?"},
         {"figure of no skin",
          "[[stand_in]]\nposition = [0, 0, 0]\nskin = \"pale\"\n" + kWholeSet,
          "set.toml:3:1: stand_in 1: skin: is \"pale\"; must be one of light, medium, dark"},
         {"skin that gives light",
          "[[stand_in]]\nposition = [0, 0, 0]\nskin = [0.5, 2, 0.5]\n" + kWholeSet,
          "set.toml:3:1: stand_in 1: skin: has 2; must be from 0 to 0.98"},
         {"dress that gives light",
          "[[stand_in]]\nposition = [0, 0, 0]\ndress = { transmission = 0.5, reflectance = 0.6 "
          "}\n" +
              kWholeSet,
          "set.toml:3:31: stand_in 1: dress: reflectance: transmission and reflectance together "
          "are 1.1; must be at most 1"},
         {"figure beside the room",
          "[[stand_in]]\nposition = [0, 0, 3]\n" + kWholeSet,
          "set.toml:2:1: stand_in 1: position: is outside the room: z is 3; must be from -2.5 to "
          "2.5"}});
}

TEST_CASE("problems of reading and of checking are reported together") {
    WrittenSet set;
    set.build(
        "titel = \"a\"\n[room]\nsize_m = [1, 2, -3]\n[camera]\nposition = [0, 0, 0]\n"
        "aim = [0, 0, 0]\niso = \"a\"\n[[fixture]]\nname = \"key\"\ndimmer = 2\n");
    // titel, size_m, aim, iso, dimmer, and of the fixture: position, aim, beam and output.
    CHECK(set.lines().size() == 9);
}

TEST_CASE("a value of the wrong type is not reported as missing too") {
    WrittenSet set;
    set.build(kAllButCamera + "[camera]\nposition = 5\naim = [0, 1, 0]\n");
    CHECK(set.lines().size() == 1);
}

TEST_CASE("text that is not TOML is one problem, and nothing is reported as missing") {
    WrittenSet set;
    set.build("[camera\n");
    CHECK(set.lines().size() == 1);
}
