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

TEST_CASE("a word like none of the keys finds nothing") {
    const std::vector<std::string> keys = {"position", "beam_angle_deg", "output_lm"};
    CHECK(nearest_word("zzzzzzzz", keys).empty());
    CHECK(nearest_word("anything", {}).empty());
}

}  // namespace dapple
