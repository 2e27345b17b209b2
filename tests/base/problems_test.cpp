#include "base/problems.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

namespace dapple {

namespace {

// Field by field, because g++ 12 reports parts of a nested initialiser as uninitialised.
Place place(const std::string& file, int line, int column) {
    Place p;
    p.file = file;
    p.line = line;
    p.column = column;
    return p;
}

std::string text(const Place& where, const std::string& key, const std::string& message) {
    Problems problems;
    problems.add(where, key, message);
    return to_string(problems.all().at(0));
}

}  // namespace

TEST_CASE("a problem reads as file:line:column: key: message") {
    CHECK(text(place("boathouse.toml", 14, 20),
               "fixture.beam_angle_deg",
               "is -5; must be above 0 and below 180") ==
          "boathouse.toml:14:20: fixture.beam_angle_deg: is -5; must be above 0 and below 180");
}

TEST_CASE("what is not known about a place is left out") {
    CHECK(to_string(place("a.obj", 7, 0)) == "a.obj:7");
    CHECK(to_string(place("a.obj", 0, 0)) == "a.obj");
    CHECK(text(place("a.obj", 0, 0), "", "holds no triangle") == "a.obj: holds no triangle");
    CHECK(text(Place(), "camera.aim", "is missing") == "camera.aim: is missing");
}

TEST_CASE("problems keep a set from being rendered, notes do not") {
    Problems problems;
    problems.note(place("a.toml", 1, 1), "stand_in", "is not rendered yet");
    CHECK(problems.empty());
    problems.add(place("a.toml", 2, 1), "camera", "is missing");
    problems.add(place("a.toml", 3, 1), "room", "is missing");
    CHECK_FALSE(problems.empty());
    REQUIRE(problems.all().size() == 2);
    CHECK(problems.all()[0].key == "camera");  // in the order found
    CHECK(problems.all()[1].place.line == 3);
    CHECK(problems.notes().size() == 1);
}

TEST_CASE("a file error names the file") {
    CHECK(std::string(FileError("out/frame.exr", "cannot be written").what()) ==
          "out/frame.exr: cannot be written");
}

TEST_CASE("a misspelt key finds the key that was meant") {
    const std::vector<std::string> keys = {
        "position", "aim", "beam_angle_deg", "field_angle_deg", "output_lm", "cct_k", "duv"};
    CHECK(nearest_word("beam_angle", keys) == "beam_angle_deg");
    CHECK(nearest_word("postion", keys) == "position");
    CHECK(nearest_word("feild_angle_deg", keys) == "field_angle_deg");
    CHECK(nearest_word("output_lumens", keys) == "output_lm");
    CHECK(nearest_word("cct", keys) == "cct_k");
    CHECK(nearest_word("aim", keys) == "aim");
}

TEST_CASE("two letters in the wrong order are one mistake, and case does not count") {
    CHECK(nearest_word("ISO", {"iso", "aim"}) == "iso");
    CHECK(nearest_word("iamge", {"image", "range"}) == "image");
    CHECK(nearest_word("wall back", {"wall_back", "wall_front"}) == "wall_back");
    CHECK(nearest_word("beam", {"position", "beam_range"}) == "beam_range");
}

TEST_CASE("the trade's other words find ours") {
    const std::vector<std::string> fixture = {"name",
                                              "form",
                                              "source",
                                              "position",
                                              "aim",
                                              "turn_deg",
                                              "cct_k",
                                              "output_lm",
                                              "peak_cd",
                                              "power_w",
                                              "barn_doors_deg",
                                              "panel_m",
                                              "photometry",
                                              "dimmer",
                                              "beam_angle_deg"};
    const std::vector<std::string> camera = {
        "position", "aim", "focal_length_mm", "f_number", "iso", "focus_m", "shutter_s", "white_k"};
    const std::vector<std::string> tables = {
        "room", "camera", "fixture", "diffuser", "flag", "bounce", "stand_in", "surface"};
    const std::vector<std::string> walls = {"wall_left", "wall_right", "wall_back", "wall_front"};
    CHECK(nearest_word("color_temp", fixture) == "cct_k");
    CHECK(nearest_word("kelvin", fixture) == "cct_k");
    CHECK(nearest_word("watts", fixture) == "power_w");
    CHECK(nearest_word("wattage", fixture) == "power_w");
    CHECK(nearest_word("lumens", fixture) == "output_lm");
    CHECK(nearest_word("look_at", fixture) == "aim");
    CHECK(nearest_word("ies", fixture) == "photometry");
    CHECK(nearest_word("barndoors", fixture) == "barn_doors_deg");
    CHECK(nearest_word("kelvin", camera) == "white_k");
    CHECK(nearest_word("f_stop", camera) == "f_number");
    CHECK(nearest_word("aperture", camera) == "f_number");
    CHECK(nearest_word("ISO", camera) == "iso");
    CHECK(nearest_word("shutter speed", camera) == "shutter_s");
    CHECK(nearest_word("lens", camera) == "focal_length_mm");
    CHECK(nearest_word("gobo", tables) == "flag");
    CHECK(nearest_word("scrim", tables) == "diffuser");
    CHECK(nearest_word("softbox", tables) == "fixture");
    CHECK(nearest_word("reflector", tables) == "bounce");
    CHECK(nearest_word("talent", tables) == "stand_in");
    CHECK(nearest_word("right wall", walls) == "wall_right");
}

TEST_CASE("no word is guessed that only shares some letters") {
    const std::vector<std::string> keys = {"name",
                                           "aim",
                                           "iso",
                                           "fill",
                                           "gel",
                                           "cct_k",
                                           "duv",
                                           "stand",
                                           "form",
                                           "circuit",
                                           "focus_m",
                                           "tint",
                                           "ribs",
                                           "seed",
                                           "glass"};
    for (const char* word : {"animation",
                             "x",
                             "priority",
                             "shadow",
                             "tripod",
                             "comment",
                             "notes",
                             "id",
                             "enabled",
                             "bokeh",
                             "price",
                             "gain_map",
                             "owner"}) {
        CAPTURE(word);
        CHECK(nearest_word(word, keys) == "");
    }
}

TEST_CASE("a word like none of the keys finds nothing") {
    const std::vector<std::string> keys = {"position", "beam_angle_deg", "output_lm"};
    CHECK(nearest_word("zzzzzzzz", keys).empty());
    CHECK(nearest_word("anything", {}).empty());
}

}  // namespace dapple
