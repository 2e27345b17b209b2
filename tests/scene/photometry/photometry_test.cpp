// The candela, sizes and symmetry that are read from photometric files.
#include "scene/photometry/photometry.h"

#include "scene/photometry/photometric_files.h"

using namespace dapple;
using namespace dapple::test;

namespace {

// The candela at angles in degrees, which the table must contain.
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

TEST_CASE("the same IES data may be written in different ways") {
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
    // A round opening as in LM-63-1995, and no version line as in 1986.
    same(replaced(kQuarterIes, "-0.2 -0.2 0", "-0.2 0 0"));
    same(replaced(kQuarterIes, "IESNA:LM-63-2002\n", "LUMINAIRE REPORT\n"));
    // Multiplier and ballast factor.
    same(replaced(replaced(kQuarterIes, "1 -1 1 4", "1 -1 0.5 4"), "1 1 25", "2 1 25"));
}

TEST_CASE("the second factor is used up to 1991 and not later") {
    const auto peak = [](const std::string& version) {
        WrittenSet set;
        const std::string text =
            replaced(replaced(kQuarterIes, "IESNA:LM-63-2002", version), "1 1 25", "1 1.10000 25");
        return candela_at(*fixture_of(set, "a.ies", text).photometry, 0, 0);
    };
    CHECK(peak("no version") == doctest::Approx(1100));
    CHECK(peak("IESNA91") == doctest::Approx(1100));
    CHECK(peak("IESNA:LM-63-1995") == doctest::Approx(1000));
    CHECK(peak("IESNA:LM-63-2002") == doctest::Approx(1000));
    CHECK(peak("IES:LM-63-2019") == doctest::Approx(1000));
}

TEST_CASE("the tilt factor depends on where the fixture aims") {
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
    CHECK(peak("[0, 2, 0]") ==
          doctest::Approx(0.88 * 9000));  // beyond the table its last factor is used
}

TEST_CASE("the first and last horizontal angles say which symmetry the lamp has") {
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
    const Photometry open =
        planes("0 120 240", 3);  // without the last plane, which is the same as the first
    CHECK(candela_at(open, 360, 30) == 100);
}

TEST_CASE("the planes of a EULUMDAT file are unfolded for every symmetry") {
    // Each of the four quarters has a different brightness.
    const auto shape = [](double c, double gamma) {
        const double a = radians_from_degrees(c);
        return (100 + 20 * std::cos(a) + 30 * std::sin(a) + gamma) * (gamma < 90 ? 1 : 0);
    };
    const double c = 30;
    const struct {
        int symmetry;
        double at_c, at_minus, at_mirror, at_opposite;  // the stored values at C, -C, 180-C, 180+C
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
        // The quarter that symmetry 4 repeats is the brightest: 19 % more lumens than the file
        // says.
        CHECK(set.notes().size() == (row.symmetry == 4 ? 1 : 0));
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

TEST_CASE("the same EULUMDAT data may be written in different ways") {
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
    options.type = "36";  // some files have a number here
    options.lamp_sets = 2;
    same(options, 1);
}

TEST_CASE("keys in the set file come before the photometric file") {
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
