// Problems and notes about photometric files.
#include <algorithm>

#include "base/random.h"
#include "scene/photometry/photometric_files.h"

using namespace dapple;
using namespace dapple::test;

TEST_CASE("each mistake in a photometric file is reported in one line, with its line") {
    const LdtOptions axial;
    LdtOptions three_sets;
    three_sets.lamp_sets = 3;
    three_sets.sets_by_field = true;
    three_sets.type = "36";
    three_sets.rendering = "80";
    const std::string ldt = ldt_text(axial, lambertian_per_thousand);
    const struct {
        const char* what;
        std::string name, text, line;
    } bad_files[] = {
        {"type A",
         "a.ies",
         replaced(kTypeBIes, "3 3 2 1", "3 3 3 1"),
         "a.ies:4: is photometric type 3 (A); must be 1 (C) or 2 (B); ask the laboratory for a "
         "file of type C"},
        {"no type",
         "a.ies",
         replaced(kTypeBIes, "3 3 2 1", "3 3 7 1"),
         "a.ies:4: the photometric type is 7; must be 1 (C) or 2 (B)"},
        {"type B, one angle",
         "a.ies",
         replaced(replaced(kTypeBIes, "3 3 2 1", "3 1 2 1"), "\n0 45 90\n900", "\n0\n900"),
         "a.ies:4: the counts 3 vertical, 1 horizontal need 3 + 1 angles and 3 x 1 candela values, "
         "7 numbers; the file has 13"},
        {"type B, wrong angles",
         "a.ies",
         replaced(kTypeBIes, "\n0 45 90\n900", "\n10 45 90\n900"),
         "a.ies:7: horizontal angles go from 10 to 90; those of type B must begin at 0 or below "
         "and "
         "end above 0"},
        {"other units",
         "a.ies",
         replaced(kQuarterIes, "4 2 1 2 ", "4 2 1 3 "),
         "a.ies:9: the units type is 3; must be 1 (feet) or 2 (metres)"},
        {"too few candela",
         "a.ies",
         replaced(kQuarterIes, " 200 0\n", " 200\n"),
         "a.ies:9: the counts 4 vertical, 2 horizontal need 4 + 2 angles and 4 x 2 candela values, "
         "14 numbers; the file has 13"},
        {"wrong count",
         "a.ies",
         replaced(kQuarterIes, "1 -1 1 4 2", "1 -1 1 5 2"),
         "a.ies:9: the counts 5 vertical, 2 horizontal need 5 + 2 angles and 5 x 2 candela values, "
         "17 numbers; the file has 14"},
        {"cut off",
         "a.ies",
         kQuarterIes.substr(0, kQuarterIes.find("25\n")),
         "a.ies:10: the file ends here; the input watts is missing"},
        {"half an angle count",
         "a.ies",
         replaced(kQuarterIes, "1 -1 1 4 2", "1 -1 1 4.5 2"),
         "a.ies:9: the count of vertical angles is 4.5; must be a whole number from 1 to 10000"},
        {"far too many",
         "a.ies",
         replaced(kQuarterIes, "1 -1 1 4 2", "1 -1 1 9999 9999"),
         "a.ies:9: 9999 x 9999 candela values are too many; at most 4000000 can be read"},
        {"a word",
         "a.ies",
         replaced(kQuarterIes, "1000 600", "1000 six"),
         "a.ies:14: has \"six\"; must be a number: the candela value"},
        {"not a number",
         "a.ies",
         replaced(kQuarterIes, "1000 600", "1000 nan"),
         "a.ies:14: has \"nan\"; must be a number: the candela value"},
        {"below nothing",
         "a.ies",
         replaced(kQuarterIes, "600", "-600"),
         "a.ies:14: a candela value is -600; must not be below 0"},
        {"no light",
         "a.ies",
         replaced(replaced(kQuarterIes, "1000 800 300 0", "0 0 0 0"), "1000 600 200 0", "0 0 0 0"),
         "a.ies:13: all candela are 0; some must be above 0"},
        {"falling angles",
         "a.ies",
         replaced(kQuarterIes, "0 30 60 90", "0 60 30 90"),
         "a.ies:11: vertical angle 30 is after 60; they must rise"},
        {"equal angles",
         "a.ies",
         replaced(kQuarterIes, "0 30 60 90", "0 30 30 90"),
         "a.ies:11: vertical angle 30 is after 30; they must rise"},
        {"beyond the sphere",
         "a.ies",
         replaced(kQuarterIes, "0 30 60 90", "0 30 60 190"),
         "a.ies:11: a vertical angle is 190; must be from 0 to 180"},
        {"planes nowhere",
         "a.ies",
         replaced(kQuarterIes, "\n0 90\n", "\n10 80\n"),
         "a.ies:12: horizontal angles go from 10 to 80; must be 0 alone, or go from 0 to 90, 180 "
         "or 360, or from 90 to 270"},
        {"no multiplier",
         "a.ies",
         replaced(kQuarterIes, "1 -1 1 4", "1 -1 0 4"),
         "a.ies:9: the candela multiplier is 0; must be above 0"},
        {"not an IES file",
         "a.ies",
         "hello\n",
         "a.ies: has no line TILT=NONE or TILT=INCLUDE; must be an IES LM-63 file"},
        {"another ending",
         "a.txt",
         "hello\n",
         "set.toml:10:1: fixture \"a\": photometry: is \"a.txt\"; must be an IES file, .ies, or a "
         "EULUMDAT file, .ldt"},
        {"cut EULUMDAT",
         "a.ldt",
         ldt.substr(0, ldt.size() - 12),
         "a.ldt:139: the file ends here, with 139 lines; 1 lamp set, 24 C-planes with symmetry 1 "
         "and 37 angles must have 140"},
        {"EULUMDAT symmetry",
         "a.ldt",
         replaced(ldt, "nobody\r\n1\r\n1", "nobody\r\n1\r\n5"),
         "a.ldt:3: the symmetry is 5; must be a whole number from 0 to 4"},
        {"EULUMDAT planes",
         "a.ldt",
         replaced(replaced(ldt, "nobody\r\n1\r\n1", "nobody\r\n1\r\n4"), "24", "23"),
         "a.ldt:4: the number of C-planes is 23; with symmetry 4 it must be a multiple of 4"},
        {"EULUMDAT without lumens",
         "a.ldt",
         replaced(ldt, "2500.000000", "none"),
         "a.ldt:29: is \"none\"; must be a number: the lumens of the lamps"},
        {"EULUMDAT lamp sets",
         "a.ldt",
         ldt_text(three_sets, lambertian_per_thousand),
         "a.ldt:27: the order of the lamp sets that begin here is not clear; the types of lamps "
         "must "
         "be words"},
        {"EULUMDAT, a word",
         "a.ldt",
         replaced(ldt, "318.309886", "much"),
         "a.ldt:104: is \"much\"; must be a number: the intensity"},
    };
    for (const auto& bad : bad_files) {
        WrittenSet set;
        set.file(bad.name, bad.text);
        set.build(with_file(bad.name));
        CAPTURE(bad.what);
        REQUIRE(set.lines().size() == 1);
        CHECK(set.lines()[0] == bad.line);
    }
}

TEST_CASE("a photometric file that leaves something open gets a note") {
    const struct {
        std::string text, note;
    } rows[] = {
        {replaced(kQuarterIes, "TILT=NONE", "TILT=lamp.tlt"),
         "a.ies:8: names a file of tilt factors, which is not read; the factors are taken as 1"},
        {replaced(kQuarterIes, "LM-63-2002", "LM-63-2031"),
         "a.ies:1: is \"IESNA:LM-63-2031\", an unknown edition; read as the edition of 2019"},
        {replaced(kQuarterIes, "-0.2 -0.2", "-200 -200"),
         "a.ies:9: the luminous opening is 200 m; not used, give source_mm"},
        {replaced(replaced(kQuarterIes, "LM-63-2002", "LM-63-1995"), "1 1 25", "1 1.1 25"),
         "a.ies:10: the factor 1.1 after the ballast factor is not used: the edition of 1995 "
         "reserves it for the future"},
        {replaced(kQuarterIes, "1 -1 1 4", "2 500 1 4"),
         "a.ies:9: the candela add up to 210 % of the lamps' lumens; no lamp gives more than it "
         "has; the candela are used"},
        {replaced(kQuarterIes, "0 30 60 90", "0 30 60 80"),
         "a.ies:11: vertical angles end at 80 degrees; no light is assumed above that"},
    };
    for (const auto& row : rows) {
        WrittenSet set;
        fixture_of(set, "a.ies", row.text);
        REQUIRE(set.notes().size() == 1);
        CHECK(set.notes()[0] == row.note);
    }
}

TEST_CASE("lux on an axis without light is a problem") {
    WrittenSet set;
    set.file("a.ies", replaced(kQuarterIes, "0 30 60 90", "90 120 150 180"));
    set.build(with_file("a.ies", "lux = { value = 5, at_m = 2 }\n"));
    REQUIRE(set.lines().size() == 1);
    CHECK(set.lines()[0] ==
          "set.toml:11:1: fixture \"a\": lux: is on the axis, where the photometric file has no "
          "light; use output_lm");
    set.build(with_file("a.ies", "form = \"bare\"\n"));
    REQUIRE(set.lines().size() == 1);
    CHECK(set.lines()[0] ==
          "set.toml:10:1: fixture \"a\": photometry: belongs to form \"spot\" or \"panel\"; form "
          "\"bare\" is equal all around");
}

TEST_CASE("a photometric file with changed bytes gives a valid table or has problems") {
    RandomStream random(13, 0, 0, Purpose::kTest);
    const std::string files[] = {kQuarterIes, kTiltedIes, ldt_text({}, lambertian_per_thousand)};
    const char* const names[] = {"a.ies", "b.ies", "c.ldt"};
    int built = 0;
    for (int round = 0; round < 900; ++round) {
        const int which = round % 3;
        std::string text = files[which];
        for (uint32_t n = 0; n < 1 + random.next_bits() % 3; ++n) {
            const char* wild = "0123456789-.,e \n\r\x80";
            text[random.next_bits() % text.size()] = wild[random.next_bits() % 18];
        }
        WrittenSet set;
        set.file(names[which], text);
        const Scene scene = set.build(with_file(names[which]));
        if (!set.problems.empty()) continue;
        const Photometry& p = scene.fixtures[0].photometry.value();
        REQUIRE(p.polar.size() >= 2);
        REQUIRE(p.azimuth.front() == 0);
        REQUIRE(p.azimuth.back() == doctest::Approx(2 * kPi));
        REQUIRE(p.candela.size() == p.polar.size() * p.azimuth.size());
        REQUIRE(std::is_sorted(p.polar.begin(), p.polar.end()));
        for (const double candela : p.candela) REQUIRE((candela >= 0 && candela <= 1e9));
        ++built;
    }
    CHECK(built > 100);
}
