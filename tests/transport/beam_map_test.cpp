// Beams in haze against closed forms.
#include "transport/haze/beam_map.h"

#include <doctest/doctest.h>

#include <cmath>

#include "math/warps.h"

using namespace dapple;

namespace {

constexpr float kScattering = 0.02F;  // 1/m
constexpr float kBeamRadius = 0.25F;  // m
constexpr float kBlur = 0.01F;        // m

// A collimated beam of 1000 lx along x, with its axis through the origin, in `count` parts.
BeamList collimated(float length, int count) {
    BeamList beams;
    for (int i = 0; i < count; ++i) {
        // Evenly over the disc, by the golden angle.
        const float r =
            kBeamRadius * std::sqrt((static_cast<float>(i) + 0.5F) / static_cast<float>(count));
        const float angle = 2.3999632F * static_cast<float>(i);
        Beam beam;
        beam.origin = Point(-0.5F * length, r * std::cos(angle), r * std::sin(angle));
        beam.direction = Direction(1, 0, 0);
        beam.length = length;
        const float lumens = 1000 * kPiF * square(kBeamRadius) / static_cast<float>(count);
        beam.flux = PackedSpectrum(Spectrum(lumens));
        beams.push_back(beam);
    }
    return beams;
}

// What is seen along a leg through the origin that light enters scattered by `angle`, without
// extinction; mean of legs that are turned a little.
double seen_luminance(const BeamMap& map, float g, float angle) {
    constexpr int kLegs = 32;
    double sum = 0;
    for (int i = 0; i < kLegs; ++i) {
        const float turn = 2 * kPiF * (static_cast<float>(i) + 0.5F) / kLegs;
        const Direction direction(
            -std::cos(angle), std::sin(angle) * std::cos(turn), std::sin(angle) * std::sin(turn));
        const float reach = 8;
        const float phase = eval_phase(g, std::cos(angle));
        map.gather(-reach * direction,
                   direction,
                   2 * reach,
                   [&](const Beam& beam, const BeamMeeting& meeting) {
                       sum += static_cast<double>(beam.flux.unpacked()[0] * kScattering * phase *
                                                  meeting.kernel);
                   });
    }
    return sum / kLegs;
}

}  // namespace

TEST_CASE("a collimated beam looks as bright as its closed form, from the side and against it") {
    Haze haze;
    haze.extinction = kScattering;
    const HazeMedium medium(haze, std::nullopt);
    const BeamMap map({collimated(16, 4000)}, medium, kBlur);
    // L = σ p(θ) E 2R/sinθ, computed in double precision. The beams are spread evenly, and the
    // standard error from them and from the legs is below 1 %.
    const auto closed = [](double g, double angle) {
        const double c = std::cos(angle);
        const double p = (1 - g * g) / (4 * kPi * std::pow(1 + g * g - 2 * g * c, 1.5));
        return 0.02 * p * 1000 * 0.5 / std::sin(angle);
    };
    CHECK(closed(0, kPi / 2) == doctest::Approx(0.79577).epsilon(1e-4));
    CHECK(closed(0.7, kPi / 6) == doctest::Approx(5.5507).epsilon(1e-4));
    for (const float g : {0.0F, 0.7F}) {
        // Below sinθ = 0.1 points of the beams count instead (E100).
        for (const float angle : {kPiF / 2, kPiF / 6, 0.12F, 0.07F, 2.0F}) {
            CAPTURE(g);
            CAPTURE(angle);
            CHECK(seen_luminance(map, g, angle) ==
                  doctest::Approx(closed(static_cast<double>(g), static_cast<double>(angle)))
                      .epsilon(0.03));
        }
    }
}

TEST_CASE("beams are dimmed along their way") {
    Haze haze;
    haze.extinction = 0.5F;
    const HazeMedium medium(haze, std::nullopt);
    BeamList beams(1);
    beams[0].direction = Direction(1, 0, 0);
    beams[0].length = 5;
    const BeamMap map({beams}, medium, kBlur);
    int met = 0;
    map.gather(
        Point(3, 0.001F, -1), Direction(0, 0, 1), 2, [&](const Beam&, const BeamMeeting& meeting) {
            ++met;
            CHECK(meeting.at_leg == doctest::Approx(1));
            CHECK(meeting.transmittance == doctest::Approx(std::exp(-1.5)).epsilon(1e-5));
        });
    CHECK(met == 1);
}

TEST_CASE("an isotropic lamp seen through beams is as bright as in closed form") {
    // V = 40 m, lamp 5 m away at 15° from a leg of 20 m, I = 1 cd: 0.0854253703 σ cd/m²
    // (integral of Sun et al. 2005, by quadrature and by exponential integrals).
    Haze haze;
    haze.extinction = 3.912F / 40;
    const HazeMedium medium(haze, std::nullopt);
    const float angle = 15 * kPiF / 180;
    const Point lamp(5 * std::sin(angle), 0, 5 * std::cos(angle));
    constexpr int kBeams = 20000;
    BeamList beams;
    for (int i = 0; i < kBeams; ++i) {
        Beam beam;
        beam.origin = lamp;
        const float turn = 0.618034F * static_cast<float>(i);
        beam.direction =
            sample_sphere((static_cast<float>(i) + 0.5F) / kBeams, turn - std::floor(turn));
        beam.length = 1e4F;
        beam.flux = PackedSpectrum(Spectrum(4 * kPiF / kBeams));
        beams.push_back(beam);
    }
    const BeamMap map({beams}, medium, 0.1F);
    const HazeWay way = medium.way(Point(0), Direction(0, 0, 1), 20);
    double seen = 0;
    map.gather(Point(0), Direction(0, 0, 1), 20, [&](const Beam& b, const BeamMeeting& m) {
        seen += static_cast<double>(b.flux.unpacked()[0] * way.extinction(m.at_leg) *
                                    way.transmittance(m.at_leg) * m.transmittance * m.kernel *
                                    eval_phase(0, 0));
    });
    // The blur of 0.1 m makes it 0.6 % too dark; the rest is the spread of 20000 beams.
    CHECK(seen == doctest::Approx(0.0854254 * 3.912 / 40).epsilon(0.025));
}
