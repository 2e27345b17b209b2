// Fixtures that focus, and attachments that widen a beam.
#include <cmath>

#include "base/units.h"
#include "scene/written_set.h"

using namespace dapple;

namespace {

std::string focusing(const std::string& more, const std::string& output = "output_lm = 900\n") {
    return kRoom + kCamera +
           "[[fixture]]\nname = \"key\"\nposition = [1, 2, 1]\naim = [0, 1, 0]\n"
           "beam_range_deg = [10, 50]\n" +
           output + more;
}

doctest::Approx degrees(double x) {
    return doctest::Approx(radians_from_degrees(x)).epsilon(1e-6);
}

}  // namespace

TEST_CASE("focus sets the beam between the fixture's two, flood where nothing is said") {
    WrittenSet set;
    const auto beam = [&](const std::string& more) {
        return set.build_clean(focusing(more)).fixtures[0].beam_angle;
    };
    CHECK(beam("") == degrees(50));
    CHECK(beam("focus = \"flood\"\n") == degrees(50));
    CHECK(beam("focus = \"spot\"\n") == degrees(10));
    CHECK(beam("focus = 0\n") == degrees(10));
    CHECK(beam("focus = 0.25\n") == degrees(20));
    CHECK(beam("beam_angle_deg = 35\n") == degrees(35));
    CHECK(set.notes().empty());
}

TEST_CASE("lumens stay through the range, or go from those of spot to those of flood") {
    WrittenSet set;
    for (const char* focus : {"focus = 0\n", "focus = 0.5\n", "focus = 1\n"}) {
        CHECK(set.build_clean(focusing(focus)).fixtures[0].output_value == 900);
    }
    const std::string pair = "output_range_lm = [600, 1000]\n";
    CHECK(set.build_clean(focusing("focus = 0\n", pair)).fixtures[0].output_value ==
          doctest::Approx(600));
    CHECK(set.build_clean(focusing("beam_angle_deg = 30\n", pair)).fixtures[0].output_value ==
          doctest::Approx(800).epsilon(1e-6));
}

TEST_CASE("field angles follow the focus, by rule, by one figure or by their own range") {
    WrittenSet set;
    const auto field = [&](const std::string& more) {
        return set.build_clean(focusing("focus = 0.5\n" + more)).fixtures[0].field_angle;
    };
    CHECK(field("") == degrees(1.35 * 30));
    CHECK(field("field_angle_deg = 48\n") == degrees(48));
    CHECK(field("field_range_deg = [20, 80]\n") == degrees(50));
}

TEST_CASE("a wide-angle attachment widens the beam and takes its stops") {
    WrittenSet set;
    const Fixture f =
        set.build_clean(focusing("focus = 1\nwide_angle = { factor = 1.5, loss_stops = 0.5 }\n"))
            .fixtures[0];
    CHECK(f.beam_angle == degrees(50));
    CHECK(f.wide_beam_angle == degrees(75));
    CHECK(f.wide_field_angle == degrees(1.35 * 75));
    CHECK(f.wide_passes == doctest::Approx(std::exp2(-0.5)));
}

TEST_CASE("a focus that cannot be is said in one line") {
    const std::string at = "fixture \"key\": ";
    const std::string one_beam =
        "is of one beam; with beam_range_deg give output_lm, the same for all, or output_range_lm "
        "= [spot, flood]";
    const struct {
        std::string text, line;
    } bad[] = {
        {focusing("beam_angle_deg = 60\n"),
         "set.toml:12:1: " + at +
             "beam_angle_deg: is 60; must be from 10 to 50, the fixture's beam_range_deg"},
        {focusing("focus = 1.5\n"), "set.toml:12:1: " + at + "focus: is 1.5; must be from 0 to 1"},
        {focusing("focus = \"wide\"\n"),
         "set.toml:12:1: " + at + "focus: is \"wide\"; must be one of spot, flood"},
        {focusing("focus = true\n"),
         "set.toml:12:9: " + at + "focus: is true or false; must be a number or a text in quotes"},
        {focusing("focus = 0.5\nbeam_angle_deg = 20\n"),
         "set.toml:13:1: " + at + "beam_angle_deg: stands beside focus; give one of the two"},
        {focusing("", "peak_cd = 900\n"), "set.toml:11:1: " + at + "peak_cd: " + one_beam},
        {focusing("", "lux = { value = 9, at_m = 1 }\n"),
         "set.toml:11:1: " + at + "lux: " + one_beam},
        {focusing("", "output_range_lm = [0, 9]\n"),
         "set.toml:11:1: " + at + "output_range_lm: has 0; both must be above 0, up to 1e+09"},
        {focusing("field_range_deg = [8, 60]\n"),
         "set.toml:12:1: " + at +
             "field_range_deg: has 8; must be above the beam there, 10, and below 180"},
        {focusing("wide_angle = { factor = 4 }\n"),
         "set.toml:12:16: " + at +
             "wide_angle: factor: makes a beam of 200 degrees; must stay below 180"},
        {focusing("wide_angle = { factor = 0.5 }\n"),
         "set.toml:12:16: " + at + "wide_angle: factor: is 0.5; must be from 1 to 10"},
        {kRoom + kCamera + kFixture + "focus = 0.5\n",
         "set.toml:12:1: " + at + "focus: needs beam_range_deg = [spot, flood] beside it"},
        {kRoom + kCamera +
             "[[fixture]]\nname = \"key\"\nposition = [1, 2, 1]\naim = [0, 1, 0]\n"
             "beam_range_deg = [50, 10]\noutput_lm = 5\n",
         "set.toml:10:1: " + at +
             "beam_range_deg: is [50, 10]; must be [spot, flood], rising, above 0 and below 180"},
    };
    for (const auto& row : bad) {
        WrittenSet set;
        set.build(row.text);
        REQUIRE(set.lines().size() == 1);
        CHECK(set.lines()[0] == row.line);
    }
}
