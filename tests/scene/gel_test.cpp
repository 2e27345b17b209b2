// gel = { … } in a set file.
#include "scene/written_set.h"

using namespace dapple;

namespace {

const std::string kAll = kRoom + kCamera + kFixture;

}  // namespace

TEST_CASE("a gel is a shift, stops and a table") {
    WrittenSet set;
    const Gel gel =
        set.build_clean(kAll + "gel = { shift_mired = -78, stops = 0.5 }\n").fixtures[0].gel;
    CHECK(gel.shift_mired == -78);
    CHECK(gel.stops == 0.5);
    CHECK_FALSE(gel.spectrum.has_value());
    set.file("rose.csv", "nm,T\n400,0.8\n500,0.4\n700,1\n");
    const Gel rose =
        set.build_clean(kAll + "gel = { file = \"rose.csv\", stops = 1 }\n").fixtures[0].gel;
    CHECK(set.notes().empty());
    REQUIRE(rose.spectrum.has_value());
    CHECK(rose.spectrum->at(390) == doctest::Approx(0.8));
    CHECK(rose.spectrum->at(450) == doctest::Approx(0.6));
    CHECK(rose.spectrum->at(600) == doctest::Approx(0.7));
    CHECK(rose.spectrum->at(760) == doctest::Approx(1));
    CHECK(rose.stops == 1);
}

TEST_CASE("a gel that cannot be is said in one line") {
    const struct {
        const char* what;
        std::string gel, csv, line;
    } bad_gels[] = {
        {"passes more than it gets",
         "stops = -1",
         "",
         "set.toml:12:9: fixture \"key\": gel: stops: is -1; must be from 0 to 16: a gel cannot "
         "pass more than it gets"},
        {"beyond blue",
         "shift_mired = -170",
         "",
         "set.toml:12:9: fixture \"key\": gel: shift_mired: is -170; must be from -138 to 821, "
         "which takes this light to 25000 and 1000 K"},
        {"two filters",
         "shift_mired = 10, file = \"a.csv\"",
         "400,1\n700,1\n",
         "set.toml:12:27: fixture \"key\": gel: file: stands beside shift_mired; give one of the "
         "two"},
        {"no file", "file = \"b.csv\"", "", "b.csv: no such file"},
        {"per cent",
         "file = \"a.csv\"",
         "nm,T\n400,85\n700,90\n",
         "a.csv:2: passes 85; must be from 0 to 1: a gel cannot pass more than it gets"},
        {"below nothing",
         "file = \"a.csv\"",
         "400,1\n700,-0.1\n",
         "a.csv:2: passes -0.1; must be from 0 to 1: a gel cannot pass more than it gets"},
        {"falling",
         "file = \"a.csv\"",
         "400,1\n700,1\n600,1\n",
         "a.csv:3: has 600 nm after 700; wavelengths must rise"},
        {"short",
         "file = \"a.csv\"",
         "500,1\n700,1\n",
         "a.csv:1: the table goes from 500 to 700 nm; must reach from 420 to 680 nm or further"},
    };
    for (const auto& bad : bad_gels) {
        WrittenSet set;
        if (!bad.csv.empty()) set.file("a.csv", bad.csv);
        set.build(kAll + "gel = { " + bad.gel + " }\n");
        CAPTURE(bad.what);
        REQUIRE(set.lines().size() == 1);
        CHECK(set.lines()[0] == bad.line);
    }
}
