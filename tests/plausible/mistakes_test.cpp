// Mistaken sets, each a good set with one change, and what is told about them.
#include "plausible/staged_text.h"

using namespace dapple;
using namespace dapple::test;

namespace {

struct Mistake {
    std::string claim;
    std::string from, to;
    std::string key;   // of the doubt
    std::string says;  // part of its message
};

// Exactly one doubt, with this key and these words.
void check_told(const Mistake& mistake) {
    const std::vector<std::string> lines = doubts_about(good_set_but(mistake.from, mistake.to));
    INFO(mistake.claim << "\n" << joined(lines));
    REQUIRE(lines.size() == 1);
    CHECK(lines[0].find(": " + mistake.key + ": ") != std::string::npos);
    CHECK(lines[0].find(mistake.says) != std::string::npos);
}

const std::string kFigureAt = "position = [0, 0, -1.0]";
const std::string kJarAt = "position = [-1.24, 1.68, 0.475]";
const std::string kKeyAt = "position = [-1.6, 2.0, 0.9]";

}  // namespace

TEST_CASE("nothing is doubted about a good set") {
    const std::vector<std::string> lines = doubts_about(kGoodSet);
    INFO(joined(lines));
    CHECK(lines.empty());
}

TEST_CASE("two things of one kind with one name are told") {
    check_told({"two glasses with one name",
                "[[glass]]",
                "[[glass]]\nname = \"jar\"\nform = \"ball\"\ndiameter_mm = 80\n"
                "position = [0.7, 1.0, -1.2]\n\n[[glass]]",
                "glass \"jar\": name",
                "is used twice, first in line"});
}

TEST_CASE("numbers that look like another unit are told") {
    for (const Mistake& mistake : std::vector<Mistake>{
             {"a room in centimetres",
              "size_m = [5.0, 6.0, 3.0]",
              "size_m = [500, 600, 300]",
              "room: size_m",
              "looks like centimetres, and size_m is in metres: size_m = [5, 6, 3]"},
             {"a room in millimetres",
              "size_m = [5.0, 6.0, 3.0]",
              "size_m = [5000, 6000, 3000]",
              "room: size_m",
              "looks like millimetres"},
             {"glass in centimetres",
              kJarAt,
              "position = [-124, 168, 47.5]",
              "glass \"jar\": position",
              "positions are in metres: position = [-1.24, 1.68, 0.475]"},
             {"a focal length in metres",
              "focal_length_mm = 35",
              "focal_length_mm = 0.035",
              "camera: focal_length_mm",
              "35?"}}) {
        check_told(mistake);
    }
}

TEST_CASE("things outside the room are told, with what was probably meant") {
    for (const Mistake& mistake :
         std::vector<Mistake>{{"glass with y and z exchanged",
                               kJarAt,
                               "position = [-1.24, -0.475, 1.68]",
                               "glass \"jar\": position",
                               "is outside the room: y is -0.475"},
                              {"a column beyond the wall",
                               "position = [1.5, 0, -1.8]",
                               "position = [2.9, 0, -1.8]",
                               "column \"pillar\": position",
                               "x is 2.9, and the room goes from -2.5 to 2.5"},
                              {"a cloth beyond the ceiling",
                               "position = [1.27, 1.6, 0.63]",
                               "position = [1.27, 3.6, 0.63]",
                               "diffuser \"cloth\": position",
                               "y is 3.6"},
                              {"glass that reaches through the floor",
                               kJarAt,
                               "position = [-2.0, -0.04, -1.5]",
                               "glass \"jar\": position",
                               "is outside the room: y is -0.04"},
                              {"a figure that reaches through a wall",
                               kFigureAt,
                               "position = [0, 0, -2.92]",
                               "stand_in \"figure\": position",
                               "through the wall_back"},
                              {"a housing that reaches through a wall",
                               "position = [1.7, 1.7, 1.2]",
                               "position = [2.4, 1.7, 1.2]",
                               "fixture \"fill\": position",
                               "through the wall_right"}}) {
        check_told(mistake);
    }
}

TEST_CASE("bodies that cut into each other are told, with how deep and which way out") {
    for (const Mistake& mistake : std::vector<Mistake>{
             {"glass in a column",
              kJarAt,
              "position = [1.32, 1.0, -1.7]",
              "glass \"jar\": position",
              "into the column \"pillar\"; move it"},
             {"glass inside a column",
              "size_m = [0.3, 0.4]",
              "size_m = [0.3, 0.4]\n[[glass]]\nname = \"lost\"\nform = \"tumbler\"\n"
              "position = [1.5, 1.0, -1.8]",
              "glass \"lost\": position",
              "is inside the column \"pillar\"; move it"},
             {"a figure in a column",
              kFigureAt,
              "position = [1.3, 0, -1.7]",
              "stand_in \"figure\": position",
              "into the column \"pillar\"; move it"},
             {"glass in a figure",
              kJarAt,
              "position = [0.05, 1.2, -0.95]",
              "glass \"jar\": position",
              "the figure \"figure\"; move it"},
             {"glass in a stand",
              "form = \"jar\"\nsurface = \"plain\"\n" + kJarAt,
              "form = \"jar\"\nsurface = \"plain\"\nposition = [-2.0, 0.3, 1.5]\n[[fixture]]\n"
              "name = \"low\"\nkit = \"led-spot-15\"\nposition = [-2.0, 1.0, 1.5]\n"
              "aim = [-2.0, 0.9, -2.0]\nstand = true\n[[glass]]\nform = \"tumbler\"\n"
              "position = [-0.2, 0.5, 0.9]",
              "glass \"jar\": position",
              "the stand of \"low\"; move it"},
             {"two glasses in each other",
              kFigureAt,
              kFigureAt + "\n[[glass]]\nname = \"other\"\nform = \"jar\"\n"
                          "position = [-1.19, 1.68, 0.475]",
              "glass \"other\": position",
              "into the glass \"jar\"; move it"},
             {"a fixture in a column",
              kKeyAt + "\naim = [0, 1.4, -1.0]",
              "position = [1.3, 2.0, -1.6]\naim = [0, 1.4, -1.0]",
              "fixture \"key\": position",
              "into the column \"pillar\"; move it"},
             {"a stand through a table",
              "stand = false",
              "stand = true\n[[column]]\nname = \"table\"\nposition = [-1.6, 0, 0.9]\n"
              "size_m = [0.8, 0.8]\nheight_m = 0.75",
              "fixture \"key\": stand",
              "the rod goes through the column \"table\", 75 cm above the floor"},
             {"a camera inside a figure",
              kFigureAt,
              "position = [0.3, 0.0, 2.6]",
              "camera: position",
              "the camera is inside the figure \"figure\""}}) {
        INFO(mistake.claim);
        const std::vector<std::string> lines = doubts_about(good_set_but(mistake.from, mistake.to));
        INFO(joined(lines));
        REQUIRE(!lines.empty());
        CHECK(joined(lines).find(": " + mistake.key + ": ") != std::string::npos);
        CHECK(joined(lines).find(mistake.says) != std::string::npos);
    }
}

TEST_CASE("a camera that cannot show the set is told") {
    for (const Mistake& mistake :
         std::vector<Mistake>{{"focus beyond the room",
                               "focus_m = 3.6",
                               "focus_m = 36",
                               "camera: focus_m",
                               "is 36, beyond everything"},
                              {"a shutter of a minute",
                               "shutter_s = 0.0166667",
                               "shutter_s = 60",
                               "camera: shutter_s",
                               "1/60 s is 0.016667"},
                              {"an f-number that the lens does not have",
                               "f_number = 2.8",
                               "lens = \"normal\"\nf_number = 1.4",
                               "camera: f_number",
                               "the lens opens only to f/2.03"},
                              {"a camera that looks at a wall",
                               "position = [0.3, 1.5, 2.6]\naim = [0.0, 1.2, -1.0]",
                               "position = [0.3, 1.5, 2.6]\naim = [0.3, 1.5, 5.0]",
                               "camera: aim",
                               "the camera looks at \"wall_front\" from 45 cm"},
                              {"a camera turned away from the figure",
                               "position = [0.3, 1.5, 2.6]\naim = [0.0, 1.2, -1.0]",
                               "position = [0.3, 1.5, -2.0]\naim = [0.3, 1.5, -6.0]",
                               "camera: aim",
                               "which is behind it"}}) {
        const std::vector<std::string> lines = doubts_about(good_set_but(mistake.from, mistake.to));
        INFO(mistake.claim << "\n" << joined(lines));
        CHECK(joined(lines).find(": " + mistake.key + ": ") != std::string::npos);
        CHECK(joined(lines).find(mistake.says) != std::string::npos);
    }
}

TEST_CASE("exposures many stops off are told") {
    for (const Mistake& mistake : std::vector<Mistake>{{"black",
                                                        "shutter_s = 0.0166667\niso = 800",
                                                        "shutter_s = 0.000125\niso = 50",
                                                        "camera: shutter_s",
                                                        "the picture looks black"},
                                                       {"burnt out",
                                                        "shutter_s = 0.0166667\niso = 800",
                                                        "shutter_s = 8.0\niso = 3200",
                                                        "camera: shutter_s",
                                                        "the picture looks burnt out"}}) {
        check_told(mistake);
    }
}

TEST_CASE("regions and meters without light or out of sight are told") {
    for (const Mistake& mistake : std::vector<Mistake>{
             {"a region behind the camera",
              "surface = \"wall_back\"",
              "surface = \"wall_front\"",
              "region \"back\": surface",
              "the lens sees nothing of \"wall_front\""},
             {"a meter in a dark corner",
              "size_m = [5.0, 6.0, 3.0]\nreflectance = 0.4",
              "size_m = [5.0, 6.0, 3.0]\nreflectance = 0.0\n[[meter]]\nname = \"dark\"\n"
              "position = [1.5, 1.5, -2.05]\nfacing = [1.5, 1.5, -3.0]",
              "meter \"dark\": facing",
              "hardly any light"}}) {
        check_told(mistake);
    }
}

TEST_CASE("beams that do not get where they are aimed are told") {
    const std::string block =
        "[[column]]\nname = \"block\"\nposition = [-1.45, 0, 0.72]\n"
        "size_m = [0.2, 0.06]\nheight_m = 2.4\n";
    for (const Mistake& mistake : std::vector<Mistake>{
             {"a column before the jar",
              "[[stand_in]]",
              block + "[[stand_in]]",
              "fixture \"key\": aim",
              "the column \"block\" stops the beam"},
             {"a flag that hides all of the figure",
              "[[region]]",
              "[[fixture]]\nname = \"rim\"\nkit = \"led-spot-40\"\nposition = [1.2, 2.2, -2.4]\n"
              "aim = [0, 1.2, -1.0]\n[[flag]]\nname = \"wing\"\nposition = [1.0, 2.03, -2.17]\n"
              "aim = \"rim\"\nsize_m = [0.5, 0.6]\n[[region]]",
              "flag \"wing\": position",
              "stops the beam of \"rim\" 35 cm from the lamp, before the figure \"figure\"; "},
             {"a flag that takes the key off the face that it is aimed at, and no more",
              "aim = [0, 1.4, -1.0]\nstand = false\n\n[[glass]]",
              "aim = \"figure face\"\nstand = false\n\n[[flag]]\nname = \"cutter\"\n"
              "position = [-0.48, 1.725, -0.43]\naim = \"key\"\nsize_m = [0.2, 0.2]\n\n[[glass]]",
              "flag \"cutter\": position",
              "takes all light of \"key\" off the face of \"figure\", which it is aimed at; "},
             {"a key that misses the figure",
              "position = [-1.6, 2.0, 0.9]\naim = [0, 1.4, -1.0]\nstand = false\n\n[[glass]]",
              "position = [-1.6, 2.0, 0.9]\naim = [-1.6, 1.4, 3.0]\nstand = false\n\n[[glass]]",
              "fixture \"key\": aim",
              "the beam passes the figure \"figure\" by"},
             {"shut barn doors",
              "stand = false",
              "stand = false\nbarn_doors_deg = [0, 0, 0, 0]",
              "fixture \"key\": barn_doors_deg",
              "let no light out"},
             {"a cloth edge-on",
              "aim = [1.7, 1.7, 1.2]\nsize_m",
              "aim = [1.9, 1.6, 0.15]\nsize_m",
              "diffuser \"cloth\": aim",
              "edge-on to the beam of \"fill\""},
             {"a floating figure",
              kFigureAt,
              "position = [0, 0.4, -1.0]",
              "stand_in \"figure\": position",
              "the figure floats 40 cm above"},
             {"a fixture in the frame that nothing holds",
              "[[region]]",
              "[[fixture]]\nname = \"in view\"\nkit = \"tungsten-650\"\n"
              "position = [-0.8, 1.3, -0.5]\naim = [0, 0.6, -2.9]\n[[region]]",
              "fixture \"in view\": stand",
              "hangs in the air"}}) {
        const std::vector<std::string> lines = doubts_about(good_set_but(mistake.from, mistake.to));
        INFO(mistake.claim << "\n" << joined(lines));
        CHECK(joined(lines).find(": " + mistake.key + ": ") != std::string::npos);
        CHECK(joined(lines).find(mistake.says) != std::string::npos);
    }
}

TEST_CASE("the place that is told is clear") {
    // The key without the jar before it is bright.
    const std::string bad =
        changed(good_set_but(kJarAt, "position = [1.32, 1.0, -1.7]"), "iso = 800", "iso = 100");
    const std::vector<std::string> lines = doubts_about(bad);
    REQUIRE(lines.size() == 1);
    const std::string place = lines[0].substr(lines[0].rfind("position = "));
    CHECK(joined(doubts_about(changed(bad, "position = [1.32, 1.0, -1.7]", place))).empty());
}

TEST_CASE(
    "glass that is sunk into a table is told the height at which it stands, to the millimetre") {
    // 2 ft 8 in is 812.8 mm.
    const std::string sunk = good_set_but(
        "[[region]]",
        "[[column]]\nname = \"table\"\nposition = [-0.9, 0, -2.0]\nsize_m = [0.5, 0.5]\n"
        "height_m = \"2 ft 8 in\"\n[[glass]]\nname = \"bottle\"\nform = \"bottle\"\n"
        "position = [-0.9, 0.8, -2.0]\n[[region]]");
    const std::vector<std::string> lines = doubts_about(sunk);
    REQUIRE(lines.size() == 1);
    CHECK(
        lines[0].ends_with("glass \"bottle\": position: cuts 1.3 cm into the column \"table\"; "
                           "move it 1.3 cm up: position = [-0.9, 0.813, -2]"));
    CHECK(doubts_about(changed(sunk, "[-0.9, 0.8, -2.0]", "[-0.9, 0.813, -2]")).empty());
}

TEST_CASE("a bottle that hangs in the air before the figure is told, and one in a beam is not") {
    const auto bottle_at = [](const std::string& position, const std::string& more = "") {
        return joined(doubts_about(good_set_but(
            "[[region]]",
            more + "[[glass]]\nname = \"bottle\"\nform = \"bottle\"\nposition = " + position +
                "\n[[region]]")));
    };
    const std::string table =
        "[[column]]\nname = \"table\"\nposition = [-0.5, 0, -2.2]\nsize_m = [0.5, 0.5]\n"
        "height_m = 0.8\n";
    const std::string told = bottle_at("[-0.8, 0.95, -2.6]");
    CAPTURE(told);
    CHECK(
        told.find("glass \"bottle\": position: hangs in the air, 95 cm above \"floor\", and is in "
                  "no lamp's beam; put a [[column]] under it, as a table (a guess)") !=
        std::string::npos);
    CHECK(bottle_at("[-0.8, 0.95, -2.6]", table)
              .find("; on the column \"table\": position = "
                    "[-0.5, 0.8, -2.2] (a guess)") != std::string::npos);
    CHECK(bottle_at("[-0.5, 0.85, -2.2]", table).find("5 cm above the column \"table\"") !=
          std::string::npos);
    CHECK(bottle_at("[-0.5, 0.85, -2.2]", table).find("; on it: position = [-0.5, 0.8, -2.2]") !=
          std::string::npos);
    CHECK(bottle_at("[-0.5, 0.8, -2.2]", table).empty());
    CHECK(bottle_at("[-0.8, 0, -2.6]").empty());
    // In the beam of the key, far behind the jar.
    CHECK(bottle_at("[-0.55, 1.5, -0.3]").find("hangs") == std::string::npos);
}
