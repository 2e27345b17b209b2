// Tables that start from the kit: keys in the set file come first, and messages name the right
// file.
#include "set/kit.h"

#include <algorithm>
#include <cmath>

#include "base/units.h"
#include "scene/build_gear.h"
#include "scene/written_set.h"

using namespace dapple;

namespace {

const std::string kOwn =
    "[[fixture]]\nkit = \"mine\"\nabout = \"a lamp\"\nform = \"spot\"\nsource = \"tungsten\"\n"
    "beam_angle_deg = 25\nfield_angle_deg = 36\noutput_lm = 1200\nsource_mm = 18\n";
const std::string kPlaced = "name = \"a\"\nposition = [1, 2, 1]\naim = [0, 1, 0]\n";

std::string from_kit(const std::string& kit, const std::string& more = "") {
    return kRoom + kCamera + "[[fixture]]\nkit = \"" + kit + "\"\n" + kPlaced + more;
}

}  // namespace

TEST_CASE("a fixture starts from the kit beside the set, and keys in the set come first") {
    WrittenSet set;
    set.folder("kit").file("kit/own.toml", kOwn);
    const Fixture as_it_is = set.build_clean(from_kit("mine")).fixtures[0];
    CHECK(as_it_is.name == "a");
    CHECK(as_it_is.source == SourceKind::kTungsten);
    CHECK(as_it_is.output_value == 1200);
    CHECK(as_it_is.source_diameter == doctest::Approx(0.018));
    const Fixture dimmer = set.build_clean(from_kit("mine", "source_mm = 5\n")).fixtures[0];
    CHECK(dimmer.source_diameter == doctest::Approx(0.005));
    CHECK(dimmer.output_value == 1200);
    // Another key for the output replaces the kit's.
    const Fixture lux =
        set.build_clean(from_kit("mine", "lux = { value = 900, at_m = 2 }\n")).fixtures[0];
    CHECK(lux.output == OutputKind::kLux);
    CHECK(lux.output_value == 900);
}

TEST_CASE("a range of beam angles in the set replaces the kit's one beam angle") {
    WrittenSet set;
    set.folder("kit").file("kit/own.toml", kOwn);
    const std::string range = "beam_range_deg = [10, 50]\nfield_range_deg = [14, 68]\n";
    const Fixture spot =
        set.build_clean(from_kit("mine", range + "focus = \"spot\"\n")).fixtures[0];
    CHECK(degrees_from_radians(spot.beam_angle) == doctest::Approx(10).epsilon(1e-5));
    CHECK(degrees_from_radians(spot.field_angle) == doctest::Approx(14).epsilon(1e-5));
    const Fixture own =
        set.build_clean(from_kit("mine", range + "beam_angle_deg = 30\n")).fixtures[0];
    CHECK(degrees_from_radians(own.beam_angle) == doctest::Approx(30).epsilon(1e-5));
}

TEST_CASE("a beam angle in the set replaces the kit's focus") {
    WrittenSet set;
    set.folder("kit").file("kit/own.toml",
                           "[[fixture]]\nkit = \"mine\"\nform = \"spot\"\nsource = \"led\"\n"
                           "beam_range_deg = [10, 50]\nfocus = \"spot\"\noutput_lm = 100\n");
    const Fixture own = set.build_clean(from_kit("mine", "beam_angle_deg = 30\n")).fixtures[0];
    CHECK(degrees_from_radians(own.beam_angle) == doctest::Approx(30).epsilon(1e-5));
}

TEST_CASE("the focus of a kit may be a number or a word") {
    WrittenSet set;
    const std::string focusing =
        "[[fixture]]\nkit = \"mine\"\nform = \"spot\"\nsource = \"led\"\n"
        "beam_range_deg = [10, 50]\noutput_lm = 100\n";
    set.folder("kit").file("kit/own.toml", focusing + "focus = 0.25\n");
    const auto beam_deg = [&](const std::string& more) {
        return degrees_from_radians(set.build_clean(from_kit("mine", more)).fixtures[0].beam_angle);
    };
    CHECK(beam_deg("") == doctest::Approx(20).epsilon(1e-5));
    CHECK(beam_deg("focus = \"spot\"\n") == doctest::Approx(10).epsilon(1e-5));
    CHECK(beam_deg("focus = 0.5\n") == doctest::Approx(30).epsilon(1e-5));
    set.file("kit/own.toml", focusing + "focus = true\n");
    set.build(from_kit("mine"));
    REQUIRE(set.lines().size() == 1);
    CHECK(set.lines()[0] ==
          "set.toml:7:1: fixture \"a\": focus (kit \"mine\", kit/own.toml:7:1): is true or false; "
          "must be a number or a text in quotes");
}

TEST_CASE("an output in the set replaces the kit's range of outputs") {
    WrittenSet set;
    set.folder("kit").file("kit/own.toml",
                           "[[fixture]]\nkit = \"mine\"\nform = \"spot\"\nsource = \"led\"\n"
                           "beam_range_deg = [10, 50]\noutput_range_lm = [100, 200]\n");
    CHECK(set.build_clean(from_kit("mine")).fixtures[0].output_value == doctest::Approx(200));
    const Fixture own = set.build_clean(from_kit("mine", "output_lm = 700\n")).fixtures[0];
    CHECK(own.output_value == doctest::Approx(700));
}

TEST_CASE("a file that a kit names is looked for beside the kit") {
    WrittenSet set;
    set.folder("kit");
    set.file("kit/sheet.csv", "380 0.5\n780 0.5\n");
    set.file("kit/lamp.ies",
             "IESNA91\nTILT=NONE\n1 1000 1 3 1 1 2 0 0 0\n1 1 10\n"
             "0 45 90\n0\n100 50 0\n");
    set.file("kit/ball.obj", cube_obj());
    set.file("kit/own.toml",
             kOwn + "gel = { file = \"sheet.csv\" }\n" +
                 "[[fixture]]\nkit = \"measured\"\nphotometry = \"lamp.ies\"\n" +
                 "[[glass]]\nkit = \"block\"\nmodel = \"ball.obj\"\n");
    CHECK(set.build_clean(from_kit("mine")).fixtures[0].gel.spectrum.has_value());
    CHECK(set.build_clean(from_kit("measured")).fixtures[0].photometry.has_value());
    const Scene scene = set.build_clean(kRoom + kCamera + kFixture +
                                        "[[glass]]\nkit = \"block\"\nposition = [0, 0, 0]\n");
    CHECK(scene.glass_meshes.size() == 1);
}

TEST_CASE("the kit beside the set comes before the project's own") {
    WrittenSet set;
    CHECK(set.build_clean(from_kit("led-spot-40")).fixtures[0].source == SourceKind::kLed);
    set.folder("kit").file("kit/own.toml",
                           "[[fixture]]\nkit = \"led-spot-40\"\nsource = \"tungsten\"\n"
                           "beam_angle_deg = 30\noutput_lm = 100\n");
    CHECK(set.build_clean(from_kit("led-spot-40")).fixtures[0].source == SourceKind::kTungsten);
}

TEST_CASE("problems in a kit are reported at the set's line, and name the kit entry second") {
    WrittenSet set;
    set.folder("kit").file(
        "kit/own.toml",
        kOwn + "power_w = -4\ncolour = 3\ngel = { stops = 1, shade = 2, shift_mired = \"a\" }\n");
    set.build(from_kit("mine"));
    const std::vector<std::string> expected = {
        "set.toml:7:1: fixture \"a\": colour (kit \"mine\", kit/own.toml:11:1): unknown key; "
        "did you mean cct_k?",
        "set.toml:7:1: fixture \"a\": gel: shade (kit \"mine\", kit/own.toml:12:20): unknown key",
        "set.toml:7:1: fixture \"a\": gel: shift_mired (kit \"mine\", kit/own.toml:12:31): is "
        "\"a\", which is no number; write -35 or \"-35 mired\"",
        "set.toml:7:1: fixture \"a\": power_w (kit \"mine\", kit/own.toml:10:1): is -4; must be "
        "from 0 "
        "to 100000"};
    REQUIRE(set.lines().size() == expected.size());
    for (size_t i = 0; i < expected.size(); ++i) CHECK(set.lines()[i] == expected[i]);
}

TEST_CASE("a mistake in the set's own keys does not name the kit") {
    WrittenSet set;
    set.folder("kit").file("kit/own.toml", kOwn);
    set.build(from_kit("mine", "power_w = -4\n"));
    REQUIRE(set.lines().size() == 1);
    CHECK(set.lines()[0] ==
          "set.toml:11:1: fixture \"a\": power_w: is -4; must be from 0 to 100000");
}

TEST_CASE(
    "every spot of the project's kit but the flood focuses, and stays as it was without focus") {
    Problems problems;
    KitShelf shelf({std::string(DAPPLE_SOURCE_DIR) + "/scenes/kit"}, problems);
    WrittenSet set;
    int count = 0;
    for (const KitEntry& entry : shelf.entries()) {
        const bool is_spot =
            entry.kind == "fixture" && entry.table->at("form").value<std::string>() == "spot";
        if (!is_spot || entry.name == "led-flood-60") continue;
        CAPTURE(entry.name);
        const Fixture usual = set.build_clean(from_kit(entry.name)).fixtures[0];
        const Fixture spot =
            set.build_clean(from_kit(entry.name, "focus = \"spot\"\n")).fixtures[0];
        const Fixture flood =
            set.build_clean(from_kit(entry.name, "focus = \"flood\"\n")).fixtures[0];
        CHECK(spot.beam_angle < usual.beam_angle);
        CHECK(usual.beam_angle < flood.beam_angle);
        CHECK(spot.field_angle < usual.field_angle);
        CHECK(usual.field_angle < flood.field_angle);
        // A lens catches less light at spot, and still throws a brighter beam.
        CHECK(spot.output_value < flood.output_value);
        CHECK(spot.output_value / std::pow(spot.beam_angle, 2) >
              flood.output_value / std::pow(flood.beam_angle, 2));
        CHECK(set.build_clean(from_kit(entry.name, "lux = { value = 900, at_m = 2 }\n"))
                  .fixtures[0]
                  .output == OutputKind::kLux);
        ++count;
    }
    CHECK(count == 8);
}

TEST_CASE("walls and floors take surfaces of the kit by name, and own keys come first") {
    WrittenSet set;
    const Scene scene = set.build_clean(
        kRoom + kCamera + kFixture + "[[surface]]\nname = \"floor\"\nkit = \"linoleum\"\n" +
        "[[surface]]\nname = \"wall_back\"\nkit = \"gloss-paint\"\nmetal = true\n" +
        "[[surface]]\nname = \"wall_left\"\nkit = \"planks\"\nreflectance = 0.5\n");
    const auto named = [&](const std::string& name) {
        return *std::find_if(scene.materials.begin(),
                             scene.materials.end(),
                             [&](const Material& m) { return m.name == name; });
    };
    CHECK(named("floor").kind == MaterialKind::kCoated);
    CHECK(named("floor").roughness == near(0.35));
    CHECK(named("wall_back").kind == MaterialKind::kConductor);
    CHECK(named("wall_left").reflectance.x == near(0.5));
}

TEST_CASE("an entry of a name and a count leaves all else to a later entry") {
    WrittenSet set;
    set.folder("kit").file("kit/own.toml", "[[fixture]]\nkit = \"led-spot-40\"\ncount = 2\n");
    CHECK(set.build_clean(from_kit("led-spot-40")).fixtures[0].source == SourceKind::kLed);
}

TEST_CASE("an unknown kit name is reported in one line with the nearest name") {
    WrittenSet set;
    set.build(kRoom + kCamera + kFixture + "[[glass]]\nkit = \"jar-ribed\"\nform = \"jar\"\n" +
              "position = [0, 0, 0]\n");
    REQUIRE(set.lines().size() == 1);
    CHECK(set.lines()[0] ==
          "set.toml:13:1: glass 1: kit: there is no glass \"jar-ribed\" in the kit; did you mean "
          "\"jar-ribbed\"?");
}

TEST_CASE("an unknown kit name is not followed by problems about missing keys") {
    WrittenSet set;
    set.build(from_kit("led-spot-4"));
    REQUIRE(set.lines().size() == 1);
    CHECK(set.lines()[0].find("did you mean \"led-spot-40\"?") != std::string::npos);
}

TEST_CASE("every entry of the project's kit makes a set with nothing wrong") {
    Problems problems;
    KitShelf shelf({std::string(DAPPLE_SOURCE_DIR) + "/scenes/kit"}, problems);
    WrittenSet set;
    std::string text = kRoom + kCamera + kFixture;
    int count = 0;
    for (const KitEntry& entry : shelf.entries()) {
        CAPTURE(entry.name);
        CHECK_FALSE(entry.about.empty());
        CHECK(shelf.find(entry.kind, entry.name) == &entry);  // each name occurs once
        if (is_support(entry.kind)) continue;
        if (entry.kind == "surface") {
            set.build_clean(kRoom + kCamera + kFixture + "[[surface]]\nname = \"floor\"\nkit = \"" +
                            entry.name + "\"\n");
            continue;
        }
        const std::string number = std::to_string(++count);
        text += "[[" + entry.kind + "]]\nkit = \"" + entry.name + "\"\nname = \"thing " + number +
                "\"\nposition = [0.5, 1, -0." + (count < 10 ? "0" : "") + number + "]\n";
        if (entry.kind != "glass") text += "aim = [0, 1.2, 0.9]\n";
    }
    CHECK(count > 50);
    CHECK(build_gear(read_gear("", problems), problems).size() == 10);
    CHECK(problems.empty());
    const Scene scene = set.build_clean(text);
    CHECK(static_cast<int>(scene.fixtures.size() + scene.glasses.size() + scene.boards.size()) ==
          count + 1);
}
