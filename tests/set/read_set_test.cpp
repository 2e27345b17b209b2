// The values of a set file are read as written, each with its place.
#include "set/read_set.h"

#include <doctest/doctest.h>

#include "set/full_example.h"

using namespace dapple;

namespace {

SetDescription read_clean(const std::string& text) {
    Problems problems;
    SetDescription set = read_set_text(text, "set.toml", problems);
    for (const Problem& problem : problems.all()) FAIL_CHECK(to_string(problem));
    return set;
}

}  // namespace

TEST_CASE("all keys are read without a problem") {
    const SetDescription set = read_clean(kFullExample);
    CHECK(set.parsed);
    CHECK(set.title.value == "Boathouse, blue hour");
    CHECK(set.fixtures.size() == 3);
    CHECK(set.glasses.size() == 2);
    CHECK(set.diffusers.size() == 1);
    CHECK(set.flags.size() == 1);
    CHECK(set.bounces.size() == 1);
    CHECK(set.stand_ins.size() == 1);
    CHECK(set.windows.size() == 1);
    CHECK(set.columns.size() == 1);
    CHECK(set.surfaces.size() == 4);
    CHECK(set.meters.size() == 1);
    CHECK(set.regions.size() == 1);
}

TEST_CASE("a room from a tape has windows, doors and columns") {
    const SetDescription set = read_clean(kTapeExample);
    CHECK(set.room.size_m.value == Triple{4, 5, 2.8});
    CHECK(set.windows[0].on_wall.wall.value == "wall_left");
    CHECK(set.windows[0].on_wall.centre_m.value == Pair{-0.5, 1.6});
    CHECK(set.doors[0].on_wall.size_m.value == Pair{0.9, 2.1});
    CHECK(set.columns[0].diameter_m.value == 0.3);
}

TEST_CASE("a size may be a text") {
    Problems problems;
    const SetDescription set =
        read_set_text("[room]\nsize_m = \"8 x 12 x 4 m\"\n[[flag]]\nsize_m = \"25 x 40 cm\"\n",
                      "a.toml",
                      problems);
    CHECK(set.room.size_m.value == Triple{8, 12, 4});
    CHECK(set.flags[0].size_m.value[0] == doctest::Approx(0.25));
    CHECK(set.flags[0].size_m.value[1] == doctest::Approx(0.4));
}

TEST_CASE("values are kept in the file's own units") {
    const SetDescription set = read_clean(kFullExample);
    CHECK(set.room.model.value == "boathouse.obj");
    CHECK(set.camera.position.value == Triple{5.2, 1.5, 0.4});
    CHECK(set.camera.focal_length_mm.value == 35.0);
    CHECK(set.camera.frame_px.value == std::array<int64_t, 2>{960, 640});
    CHECK(set.fixtures[0].beam_angle_deg.value == 20.0);
    CHECK(set.fixtures[1].barn_doors_deg.value == Quad{90, 60, 120, 180});
    CHECK(set.fixtures[0].focus_word.value == "spot");
    CHECK(set.fixtures[0].wide_angle.factor.value == 1.5);
    CHECK(set.power.volts.value == 230);
    CHECK(set.fixtures[0].housing_mm.value == Pair{110, 180});
    CHECK(set.fixtures[1].lux.value.value == 1800);
    CHECK(set.fixtures[1].lux.at_m.value == 3);
    CHECK(set.fixtures[1].dimmer_warms.value);
    CHECK(set.glasses[0].ribs.value == 24);
    CHECK(set.glasses[0].fill.liquid.value == "water");
    CHECK(set.glasses[0].fill.level.value == 0.6);
    CHECK(set.glasses[1].units.unit.value == "mm");
    CHECK(set.surfaces[2].metal.value);
    CHECK(set.surfaces[3].thin.value);
    CHECK(set.stand_ins[0].dress.sheet.direct.value == 0.1);
    CHECK(set.regions[0].rect_px.value == std::array<int64_t, 4>{0, 0, 480, 320});
}

TEST_CASE("a whole number may be written for any number") {
    CHECK(read_clean(kFullExample).fixtures[0].output_lm.value == 2600.0);
}

TEST_CASE("a colour may be one number for all three channels") {
    const SetDescription set = read_clean(kFullExample);
    CHECK(set.diffusers[0].reflectance.value == Triple{0.4, 0.4, 0.4});
    CHECK(set.bounces[0].reflectance.value == Triple{0.9, 0.88, 0.85});
}

TEST_CASE("every value has its line, its column and its name for messages") {
    const SetDescription set = read_clean(
        "[camera]\nposition = [0, 1, 2]\n\n[[fixture]]\nname = \"net\"\n  beam_angle_deg = 20\n");
    const Field<double>& beam = set.fixtures[0].beam_angle_deg;
    CHECK(to_string(beam.place) == "set.toml:6:3");
    CHECK(beam.key == "fixture \"net\": beam_angle_deg");
    CHECK(to_string(set.camera.position.place) == "set.toml:2:1");
    CHECK(set.camera.position.key == "camera: position");
}

TEST_CASE("a missing value is not given and has the place of its table") {
    const SetDescription set = read_clean("\n[[fixture]]\nname = \"net\"\n");
    const Field<double>& dimmer = set.fixtures[0].dimmer;
    CHECK_FALSE(dimmer.written);
    CHECK_FALSE(dimmer.given);
    CHECK(dimmer.place.line == 2);
    CHECK_FALSE(set.camera.given);
}

TEST_CASE("a key that is misspelt counts as written, in every table of a list") {
    Problems problems;
    const SetDescription set = read_set_text(
        "[[fixture]]\nbeam_angel_deg = 5\n[[fixture]]\n[[fixture]]\nbeam_angel_deg = 6\n",
        "set.toml",
        problems);
    CHECK(problems.all().size() == 2);
    for (size_t i = 0; i < 3; ++i) {
        CHECK(set.fixtures[i].beam_angle_deg.written == (i != 1));
        CHECK_FALSE(set.fixtures[i].beam_angle_deg.given);
        CHECK_FALSE(set.fixtures[i].field_angle_deg.written);
    }
}

TEST_CASE("Windows line ends and a byte order mark are read") {
    const SetDescription set =
        read_clean("\xEF\xBB\xBFtitle = \"A\"\r\n[camera]\r\nposition = [0, 1, 2]\r\n");
    CHECK(set.title.value == "A");
    CHECK(set.camera.position.place.line == 3);
}
