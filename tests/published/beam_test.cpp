// Beams of spots: the law (E1), its lumens, and the walks drawn from it.
//
// No standard prescribes the curve between the beam angle and the field angle. The tabulated
// integrals are those of our own law, computed outside this program by Simpson's rule. Beam and
// field angle are defined by the standards (ANSI C78.379-2006: of the intensity in the beam's
// centre).
#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "base/units.h"
#include "fixtures/beam_profile.h"
#include "fixtures/emitter.h"
#include "published/drawn_beam.h"
#include "published/published.h"

namespace beam_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Beams");

const std::string kLaw = "I0 exp(-ln2 (t/tb)^p), Simpson's rule";
const std::string kAngles = "ANSI C78.379-2006 (from memory)";
const std::string kInverseSquare =
    "IES Lighting Handbook, 10th ed., inverse square law (from memory)";

constexpr double kLumens = 1000;

struct Beam {
    double beam, field;  // degrees, full angles
    const char *per_candela, *candela, *in_beam, *in_field;
};
const std::vector<Beam> kBeams{{15, 30, "0.087923", "11373.6", "0.4298", "0.8730"},
                               {19, 23, "0.086626", "11543.8", "0.8566", "0.9837"},
                               {20, 30, "0.110361", "9061.2", "0.6681", "0.9490"},
                               {26, 34, "0.167816", "5958.9", "0.7906", "0.9734"},
                               {36, 50, "0.332791", "3004.9", "0.7389", "0.9642"},
                               {50, 70, "0.638531", "1566.1", "0.7351", "0.9638"}};

std::string name_of(double beam, double field) {
    return figure(beam) + "° beam, " + figure(field) + "° field";
}

// A point source at the origin with its beam downwards.
Fixture spot(double beam, double field, double lumens = kLumens) {
    Fixture f;
    f.form = FixtureForm::kSpot;
    f.axis = Direction(0, -1, 0);
    f.beam_angle = static_cast<float>(radians_from_degrees(beam));
    f.field_angle = static_cast<float>(radians_from_degrees(field));
    f.output_value = lumens;
    return f;
}

BeamProfile profile_of(const Beam& b) {
    return BeamProfile(radians_from_degrees(b.beam), radians_from_degrees(b.field));
}

// ∫ I/I0 2π sinθ dθ up to an angle, by Simpson's rule.
double lumens_within(const BeamProfile& profile, double angle) {
    constexpr int kSteps = 2000;
    const double width = angle / kSteps;
    double sum = 0;
    for (int i = 0; i <= kSteps; ++i) {
        const double weight = i == 0 || i == kSteps ? 1 : (i % 2 == 1 ? 4 : 2);
        sum += weight * profile.relative_intensity(i * width) * std::sin(i * width);
    }
    return 2 * kPi * sum * width / 3;
}

// Lux on a surface at `at` that faces up.
double lux_on_floor(const Emitter& emitter, const Point& at) {
    LampLight light;
    REQUIRE(emitter.sample_towards(at, 0.5F, 0.5F, light));
    const Vec3 to = light.position - at;
    return light.luminance * -light.direction.y / glm::dot(to, to);
}

}  // namespace

TEST_CASE("intensity is a half at the beam angle and a tenth at the field angle") {
    for (const Beam& b : kBeams) {
        const BeamProfile profile = profile_of(b);
        const auto at = [&](double degrees) {
            return profile.relative_intensity(radians_from_degrees(0.5 * degrees));
        };
        const std::string of = ", " + name_of(b.beam, b.field);
        kSubject.exact(
            "intensity at the edge of the beam" + of, kAngles, "of I0", "0.500000", at(b.beam));
        kSubject.exact(
            "intensity at the edge of the field" + of, kAngles, "of I0", "0.100000", at(b.field));
    }
}

TEST_CASE("beams have the lumens and candela of the integrated law") {
    for (const Beam& b : kBeams) {
        const BeamProfile profile = profile_of(b);
        const std::string of = ", " + name_of(b.beam, b.field);
        const double all = profile.lumens_per_peak_candela();
        kSubject.exact("lumens per candela of the centre" + of, kLaw, "sr", b.per_candela, all);
        kSubject.exact("centre, 1000 lm" + of,
                       kLaw,
                       "cd",
                       b.candela,
                       Emitter(spot(b.beam, b.field)).peak_candela());
        const auto share = [&](double degrees) {
            return lumens_within(profile, radians_from_degrees(0.5 * degrees)) / all;
        };
        kSubject.exact("share of the lumens in the beam" + of, kLaw, "", b.in_beam, share(b.beam));
        kSubject.exact(
            "share of the lumens in the field" + of, kLaw, "", b.in_field, share(b.field));
    }
}

TEST_CASE("walks drawn from a beam have its lumens and its angles") {
    for (const Beam& b : kBeams) {
        const DrawnBeam drawn = draw_beam(spot(b.beam, b.field));
        const std::string of = ", drawn, " + name_of(b.beam, b.field);
        // The table of directions is close to the law, so all walks have nearly the same weight.
        kSubject.mean("1000 lm" + of, "definition", "lm", "1000.00", drawn.lumens.estimate());
        kSubject.mean(
            "width at half" + of, kAngles, "°", figure(b.beam) + ".00", drawn.beam_deg.estimate());
        kSubject.mean("width at a tenth" + of,
                      kAngles,
                      "°",
                      figure(b.field) + ".00",
                      drawn.field_deg.estimate());
        kSubject.mean("share in the beam" + of, kLaw, "", b.in_beam, drawn.in_beam.estimate());
        kSubject.mean("share in the field" + of, kLaw, "", b.in_field, drawn.in_field.estimate());
    }
}

TEST_CASE("focusing a spot keeps its lumens and changes its candela by the law") {
    const struct {
        double beam;
        const char* candela;
    } rows[] = {{10, "36127.2"}, {20, "9061.17"}, {30, "4049.03"}};
    for (const auto& row : rows) {
        const Fixture f = spot(row.beam, 1.5 * row.beam);
        const std::string at = " focused to " + figure(row.beam) + "°, field 1.5 times as wide";
        kSubject.exact(
            "centre of 1000 lm" + at, kLaw, "cd", row.candela, Emitter(f).peak_candela());
        kSubject.mean("1000 lm" + at + ", drawn",
                      "definition",
                      "lm",
                      "1000.00",
                      draw_beam(f).lumens.estimate());
    }
}

TEST_CASE("a spot gives the published lux at a distance") {
    Fixture f = spot(20, 30, 10000);
    f.output = OutputKind::kPeakCandela;
    const Emitter emitter(f);
    const struct {
        float metres;
        const char* lux;
    } rows[] = {{2, "2500.00"}, {3, "1111.111"}, {5, "400.000"}};
    for (const auto& row : rows) {
        kSubject.exact("10000 cd at " + figure(row.metres) + " m",
                       kInverseSquare,
                       "lx",
                       row.lux,
                       lux_on_floor(emitter, Point(0, -row.metres, 0)));
    }
    f.output = OutputKind::kLux;
    f.output_value = 3125;
    f.output_distance = 4;
    kSubject.exact("centre of a spot set to 3125 lx at 4 m",
                   kInverseSquare,
                   "cd",
                   "50000.0",
                   Emitter(f).peak_candela());
}

TEST_CASE("on a wall that faces the lamp the edge of the beam has the published share") {
    const struct {
        double beam;
        const char* share;
    } rows[] = {{10, "0.4943"},
                {20, "0.4776"},
                {30, "0.4506"},
                {40, "0.4149"},
                {60, "0.3248"},
                {90, "0.1768"}};
    for (const auto& row : rows) {
        const Emitter emitter(spot(row.beam, 1.35 * row.beam));
        const auto aside = static_cast<float>(3 * std::tan(radians_from_degrees(0.5 * row.beam)));
        const double edge = lux_on_floor(emitter, Point(aside, -3, 0));
        kSubject.exact("lux at the edge of a " + figure(row.beam) + "° beam, of its centre's",
                       "0.5 cos³ of half the angle: inverse square and cosine",
                       "",
                       row.share,
                       edge / lux_on_floor(emitter, Point(0, -3, 0)));
    }
}

}  // namespace beam_test
