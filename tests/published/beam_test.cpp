// Beams of spots: the law (E1), its lumens, and what is drawn from it.
//
// No standard prescribes the curve between the beam angle and the field angle; the tabulated
// integrals are those of our own law, made apart from this program by Simpson's rule. What beam and
// field angle mean is the standards' (ANSI C78.379-2006: of the intensity in the beam's centre).
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <vector>

#include "base/random.h"
#include "base/units.h"
#include "fixtures/beam_profile.h"
#include "fixtures/emitter.h"
#include "published/published.h"

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

// A point at the origin that shines down.
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

// ---- What is drawn ------------------------------------------------------------------------------

// The flux about one angle, in bins of its share: a piece of the intensity curve.
struct AboutAngle {
    static constexpr int kBins = 16;
    static constexpr double kReach = 0.15;  // of the angle, to either side

    double angle;
    std::array<double, kBins> flux{};

    void add(double theta, double lumens) {
        const double at = (theta / angle - 1 + kReach) / (2 * kReach) * kBins;
        if (at >= 0 && at < kBins) flux[static_cast<size_t>(at)] += lumens;
    }

    // The angle at which the intensity is `level`: a parabola is laid through the logarithm of the
    // bins by least squares. What it leaves out of the sharpest beam here moves that angle by less
    // than 2e-4 of itself.
    double where(double level) const {
        double y0 = 0;
        double y1 = 0;
        double y2 = 0;
        double x2 = 0;
        double x4 = 0;
        for (int i = 0; i < kBins; ++i) {
            const double x = kReach * (2 * (i + 0.5) / kBins - 1);
            const double half = kReach / kBins;
            const double solid_angle =
                2 * kPi * (std::cos(angle * (1 + x - half)) - std::cos(angle * (1 + x + half)));
            const double y = std::log(flux[static_cast<size_t>(i)] / solid_angle / level);
            y0 += y / kBins;
            y1 += x * y / kBins;
            y2 += x * x * y / kBins;
            x2 += x * x / kBins;
            x4 += x * x * x * x / kBins;
        }
        const double curve = (y2 - x2 * y0) / (x4 - x2 * x2);
        const double slope = y1 / x2;
        const double middle = y0 - curve * x2;
        double x = 0;
        for (int i = 0; i < 20; ++i) x = -(middle + curve * x * x) / slope;
        return angle * (1 + x);
    }
};

class Mean {
  public:
    void add(double x) {
        ++n_;
        const double step = x - mean_;
        mean_ += step / n_;
        squares_ += step * (x - mean_);
    }
    Estimate estimate() const { return {mean_, std::sqrt(squares_ / (n_ - 1) / n_)}; }

  private:
    int n_ = 0;
    double mean_ = 0, squares_ = 0;
};

struct Drawn {
    Mean lumens, beam_deg, field_deg, in_beam, in_field;
};

// Means over batches of walks. Within a batch the numbers that decide the angle are spread over a
// hundred equal steps, as the renderer spreads its own; the batches stay independent.
Drawn draw(const Fixture& fixture) {
    constexpr int kBatches = 20;
    constexpr int kWalks = 20000;
    constexpr int kSteps = 100;
    const Emitter emitter(fixture);
    const double half_beam = 0.5 * fixture.beam_angle;
    const double half_field = 0.5 * fixture.field_angle;
    Drawn drawn;
    for (int batch = 0; batch < kBatches; ++batch) {
        RandomStream random(7, 0, static_cast<uint64_t>(batch), Purpose::kTest);
        AboutAngle at_beam{half_beam};
        AboutAngle at_field{half_field};
        double all = 0;
        double in_beam = 0;
        double in_field = 0;
        for (int i = 0; i < kWalks; ++i) {
            const float step = static_cast<float>(i % kSteps);
            const float u = std::min((step + random.next()) / kSteps, kOneMinusEpsilon);
            const LampLight s = emitter.sample_emission(0.5F, 0.5F, u, random.next());
            const double lumens = static_cast<double>(s.luminance) / s.pdf_direction / kWalks;
            const double theta =
                std::atan2(std::hypot(s.direction.x, s.direction.z), -s.direction.y);
            all += lumens;
            if (theta < half_beam) in_beam += lumens;
            if (theta < half_field) in_field += lumens;
            at_beam.add(theta, lumens);
            at_field.add(theta, lumens);
        }
        drawn.lumens.add(all);
        drawn.in_beam.add(in_beam / all);
        drawn.in_field.add(in_field / all);
        const double peak = emitter.peak_candela();
        drawn.beam_deg.add(2 * degrees_from_radians(at_beam.where(0.5 * peak)));
        drawn.field_deg.add(2 * degrees_from_radians(at_field.where(0.1 * peak)));
    }
    return drawn;
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

TEST_CASE("walks drawn from a beam bring its lumens and its angles") {
    for (const Beam& b : kBeams) {
        const Drawn drawn = draw(spot(b.beam, b.field));
        const std::string of = ", drawn, " + name_of(b.beam, b.field);
        // The table of directions is nearly the law, so all walks weigh nearly the same.
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

TEST_CASE("focusing a spot keeps its lumens and moves its candela as the law says") {
    const struct {
        double beam;
        const char* candela;
    } rows[] = {{10, "36127.2"}, {20, "9061.17"}, {30, "4049.03"}};
    for (const auto& row : rows) {
        const Fixture f = spot(row.beam, 1.5 * row.beam);
        const std::string at = " focused to " + figure(row.beam) + "°, field 1.5 times as wide";
        kSubject.exact(
            "centre of 1000 lm" + at, kLaw, "cd", row.candela, Emitter(f).peak_candela());
        kSubject.mean(
            "1000 lm" + at + ", drawn", "definition", "lm", "1000.00", draw(f).lumens.estimate());
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
