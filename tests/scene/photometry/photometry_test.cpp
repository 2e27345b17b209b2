// Photometric files: what is read of them, and what is said of bad ones.
#include "scene/photometry/photometry.h"

#include <algorithm>

#include "base/random.h"
#include "scene/photometry/photometric_files.h"
#include "scene/written_set.h"

using namespace dapple;
using namespace dapple::test;

namespace {

const std::string kLamp = "[[fixture]]\nname = \"a\"\nposition = [0, 2, 0]\naim = [0, 0, 0]\n";

std::string with_file(const std::string& name, const std::string& more = "") {
    return kRoom + kCamera + kLamp + "photometry = \"" + name + "\"\n" + more;
}

Fixture fixture_of(WrittenSet& set,
                   const std::string& name,
                   const std::string& text,
                   const std::string& more = "") {
    set.file(name, text);
    return set.build_clean(with_file(name, more)).fixtures[0];
}

// At angles in degrees that the table holds.
double candela_at(const Photometry& p, double azimuth, double polar) {
    const auto index = [](const std::vector<double>& angles, double degrees) {
        for (size_t i = 0; i < angles.size(); ++i) {
            if (std::abs(angles[i] - radians_from_degrees(degrees)) < 1e-9) return i;
        }
        FAIL("no such angle: " << degrees);
        return size_t{0};
    };
    return p.at(index(p.azimuth, azimuth), index(p.polar, polar));
}

std::string replaced(std::string text, const std::string& from, const std::string& to) {
    const size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    return text.replace(at, from.size(), to);
}

}  // namespace

TEST_CASE("a quarter of planes is mirrored to the other three") {
    WrittenSet set;
    const Fixture f = fixture_of(set, "a.ies", kQuarterIes);
    CHECK(set.notes().empty());
    REQUIRE(f.photometry.has_value());
    const Photometry& p = *f.photometry;
    CHECK(p.azimuth.size() == 5);
    for (const double azimuth : {0.0, 180.0, 360.0}) CHECK(candela_at(p, azimuth, 30) == 800);
    for (const double azimuth : {90.0, 270.0}) CHECK(candela_at(p, azimuth, 60) == 200);
    CHECK(f.output == OutputKind::kPhotometry);
    CHECK(f.power_w == 25);
    CHECK(f.source_diameter == doctest::Approx(0.2));
}

TEST_CASE("an IES file means the same however it is written") {
    const auto same = [](const std::string& text) {
        WrittenSet set;
        const Fixture f = fixture_of(set, "a.IES", text);
        CAPTURE(text);
        REQUIRE(f.photometry.has_value());
        CHECK(candela_at(*f.photometry, 90, 60) == doctest::Approx(200));
        CHECK(candela_at(*f.photometry, 180, 0) == doctest::Approx(1000));
        CHECK(f.source_diameter == doctest::Approx(0.2));
    };
    std::string carriage_returns = kQuarterIes;
    for (char& c : carriage_returns) c = c == '\n' ? '\r' : c;
    same(carriage_returns);
    same("\xef\xbb\xbf" + kQuarterIes);
    same(replaced(kQuarterIes,
                  "nobody",
                  "Beleuchtung \xfc"
                  "ber alles"));
    same(replaced(kQuarterIes, "TILT=NONE", " tilt = none "));
    same(replaced(kQuarterIes, "0 30 60 90\n", "0,\n30\n,60\t90\n"));
    same(replaced(kQuarterIes, "1 -1 1 4 2 1 2", "1.0 -1 1e0 4. 2.0 1 2"));
    same(kQuarterIes + "\n\nthe end of 2 pages\n");
    same(replaced(kQuarterIes, "1000 800", "1.0E3 +800"));
    // 0.2 m are 0.656168 feet.
    same(replaced(kQuarterIes, "1 2 -0.2 -0.2 0", "1 1 -0.656168 -0.656168 0"));
    // A round opening as LM-63-1995 writes it; no version line as in 1986.
    same(replaced(kQuarterIes, "-0.2 -0.2 0", "-0.2 0 0"));
    same(replaced(kQuarterIes, "IESNA:LM-63-2002\n", "LUMINAIRE REPORT\n"));
    // Multiplier and ballast factor.
    same(replaced(replaced(kQuarterIes, "1 -1 1 4", "1 -1 0.5 4"), "1 1 25", "2 1 25"));
}

TEST_CASE("the second factor counts up to 1995 and never later") {
    const auto peak = [](const std::string& version) {
        WrittenSet set;
        const std::string text =
            replaced(replaced(kQuarterIes, "IESNA:LM-63-2002", version), "1 1 25", "1 1.10000 25");
        return candela_at(*fixture_of(set, "a.ies", text).photometry, 0, 0);
    };
    CHECK(peak("no version") == doctest::Approx(1100));
    CHECK(peak("IESNA91") == doctest::Approx(1100));
    CHECK(peak("IESNA:LM-63-1995") == doctest::Approx(1100));
    CHECK(peak("IESNA:LM-63-2002") == doctest::Approx(1000));
    CHECK(peak("IES:LM-63-2019") == doctest::Approx(1000));
}

TEST_CASE("factors for a tilted lamp are those of where the fixture aims") {
    WrittenSet set;
    set.file("a.ies", kTiltedIes);
    const auto peak = [&](const std::string& aim) {
        return set
            .build_clean(kRoom + kCamera +
                         "[[fixture]]\nname = \"a\"\nposition = [0, 1, 0]\naim = " + aim +
                         "\nphotometry = \"a.ies\"\n")
            .fixtures[0]
            .photometry->candela[0];
    };
    CHECK(peak("[0, 0, 0]") == doctest::Approx(9000));
    CHECK(peak("[1, 0, 0]") == doctest::Approx(0.94 * 9000));  // 45°
    CHECK(peak("[1, 1, 0]") == doctest::Approx(0.88 * 9000));  // 90°
    CHECK(peak("[0, 2, 0]") == doctest::Approx(0.88 * 9000));  // beyond the table: its end
}

TEST_CASE("horizontal angles say by their ends how the lamp is symmetric") {
    const auto planes = [](const std::string& angles, int count) {
        std::string text = replaced(kQuarterIes, "4 2 1 2", "4 " + std::to_string(count) + " 1 2");
        text = replaced(text, "\n0 90\n", "\n" + angles + "\n");
        text = text.substr(0, text.find("1000 800"));
        for (int i = 0; i < count; ++i) text += "900 " + std::to_string(100 * (i + 1)) + " 50 0\n";
        WrittenSet set;
        return *fixture_of(set, "a.ies", text).photometry;
    };
    const Photometry axial = planes("0", 1);
    CHECK(candela_at(axial, 360, 30) == 100);
    const Photometry half = planes("0 90 180", 3);
    CHECK(candela_at(half, 270, 30) == 200);
    CHECK(candela_at(half, 180, 30) == 300);
    const Photometry across = planes("90 180 270", 3);
    CHECK(candela_at(across, 0, 30) == 200);
    CHECK(candela_at(across, 90, 30) == 100);
    CHECK(candela_at(across, 270, 30) == 300);
    const Photometry all = planes("0 120 240 360", 4);
    CHECK(candela_at(all, 240, 30) == 300);
    const Photometry open = planes("0 120 240", 3);  // the last plane left out, as it is the first
    CHECK(candela_at(open, 360, 30) == 100);
}

TEST_CASE("a EULUMDAT file of any symmetry returns its planes") {
    // A plane to the left of C0 brighter than to its right, and so on: unlike in all quarters.
    const auto shape = [](double c, double gamma) {
        const double a = radians_from_degrees(c);
        return (100 + 20 * std::cos(a) + 30 * std::sin(a) + gamma) * (gamma < 90 ? 1 : 0);
    };
    const double c = 30;
    const struct {
        int symmetry;
        double at_c, at_minus, at_mirror, at_opposite;  // C, -C, 180-C, 180+C are stored as these
    } rows[] = {{0, c, 330, 150, 210},
                {1, 0, 0, 0, 0},
                {2, c, c, 150, 150},
                {3, c, 330, c, 330},
                {4, c, c, c, c}};
    for (const auto& row : rows) {
        LdtOptions options;
        options.symmetry = row.symmetry;
        WrittenSet set;
        const Fixture f = fixture_of(set, "a.ldt", ldt_text(options, shape));
        CAPTURE(row.symmetry);
        CHECK(set.notes().empty());
        const Photometry& p = *f.photometry;
        const auto from_file = [&](double plane) { return 2.5 * shape(plane, 40); };
        const double there = row.symmetry == 1 ? 0 : c;
        CHECK(p.at(0, 16) == doctest::Approx(2.5 * shape(row.symmetry == 3 ? 0 : 0, 40)));
        if (row.symmetry == 1) continue;
        CHECK(candela_at(p, there, 40) == doctest::Approx(from_file(row.at_c)));
        CHECK(candela_at(p, 330, 40) == doctest::Approx(from_file(row.at_minus)));
        CHECK(candela_at(p, 150, 40) == doctest::Approx(from_file(row.at_mirror)));
        CHECK(candela_at(p, 210, 40) == doctest::Approx(from_file(row.at_opposite)));
    }
}

TEST_CASE("a EULUMDAT file means the same however it is written") {
    const auto same = [](const LdtOptions& options, size_t notes) {
        WrittenSet set;
        const Fixture f = fixture_of(set, "a.ldt", ldt_text(options, lambertian_per_thousand));
        // 318.310 cd per 1000 lm and 2500 lm: 795.775 cd.
        CHECK(f.photometry->candela[0] == doctest::Approx(795.775).epsilon(1e-6));
        CHECK(set.notes().size() == notes);
        CHECK(f.power_w == (options.whole_set ? 30 : 0));
    };
    LdtOptions options;
    same(options, 0);
    options.decimal_comma = true;
    same(options, 0);
    options.decimal_comma = false;
    options.planes = 0;  // symmetry 1 needs none
    same(options, 0);
    options.planes = 24;
    options.direct_ratios = false;
    same(options, 0);
    options.whole_set = false;
    same(options, 0);
    options = LdtOptions();
    options.lamp_sets = 3;
    same(options, 1);
    options.sets_by_field = true;
    same(options, 1);
    options.rendering = "80";
    same(options, 1);
    options = LdtOptions();
    options.type = "36";  // a number, as some write it
    options.lamp_sets = 2;
    same(options, 1);
}

TEST_CASE("the set file's own words come before the file's") {
    WrittenSet set;
    set.file("a.ies", replaced(kQuarterIes, "-0.2 -0.2 0", "0.3 0.4 0"));
    const Fixture plain = set.build_clean(with_file("a.ies")).fixtures[0];
    CHECK(plain.source_diameter == doctest::Approx(2 * std::sqrt(0.12 / kPi)));  // same area
    const Fixture panel = set.build_clean(with_file("a.ies", "form = \"panel\"\n")).fixtures[0];
    CHECK(panel.panel_size.x == doctest::Approx(0.4));  // length along the plane 0°
    CHECK(panel.panel_size.y == doctest::Approx(0.3));
    const Fixture told =
        set.build_clean(with_file("a.ies", "source_mm = 20\npower_w = 30\noutput_lm = 500\n"))
            .fixtures[0];
    CHECK(told.source_diameter == doctest::Approx(0.02));
    CHECK(told.power_w == 30);
    CHECK(told.output == OutputKind::kLumens);
    CHECK(told.output_value == 500);
    set.build_clean(with_file("a.ies", "beam_angle_deg = 20\n"));
    REQUIRE(set.notes().size() == 1);
    CHECK(set.notes()[0] ==
          "set.toml:11:1: fixture \"a\": beam_angle_deg: is not used: the photometric file has its "
          "own beam");
}

TEST_CASE("a photometric file that cannot be is said in one line, with its own line") {
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
        {"type B",
         "a.ies",
         kTypeBIes,
         "a.ies:4: is photometric type 2 (B); must be 1 (C); ask the laboratory for a file of type "
         "C"},
        {"type A",
         "a.ies",
         replaced(kTypeBIes, "3 3 2 1", "3 3 3 1"),
         "a.ies:4: is photometric type 3 (A); must be 1 (C); ask the laboratory for a file of type "
         "C"},
        {"no type",
         "a.ies",
         replaced(kTypeBIes, "3 3 2 1", "3 3 7 1"),
         "a.ies:4: the photometric type is 7; must be 1 (C)"},
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

TEST_CASE("what a photometric file leaves open is told") {
    const struct {
        std::string text, note;
    } rows[] = {
        {replaced(kQuarterIes, "TILT=NONE", "TILT=lamp.tlt"),
         "a.ies:8: names a file of tilt factors, which is not read; the factors are taken as 1"},
        {replaced(kQuarterIes, "LM-63-2002", "LM-63-2031"),
         "a.ies:1: is \"IESNA:LM-63-2031\", an unknown edition; read as the edition of 2019"},
        {replaced(kQuarterIes, "-0.2 -0.2", "-200 -200"),
         "a.ies:9: the luminous opening is 200 m; not used, give source_mm"},
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

TEST_CASE("a photometric file with changed bytes gives a sound table or has problems") {
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
