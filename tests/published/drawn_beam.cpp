#include "published/drawn_beam.h"

#include <algorithm>
#include <array>

#include "base/random.h"
#include "base/units.h"
#include "fixtures/emitter.h"

namespace dapple::published {

namespace {

// The flux around one angle, in bins of the angle: a piece of the intensity curve.
struct AboutAngle {
    static constexpr int kBins = 16;
    static constexpr double kReach = 0.15;  // of the angle, to either side

    double angle;
    std::array<double, kBins> flux{};

    void add(double theta, double lumens) {
        const double at = (theta / angle - 1 + kReach) / (2 * kReach) * kBins;
        if (at >= 0 && at < kBins) flux[static_cast<size_t>(at)] += lumens;
    }

    // The angle at which the intensity is `level`, from a parabola fitted to the logarithm of the
    // bins by least squares. For the sharpest beam here the parabola's error changes that angle by
    // less than 2e-4 of it.
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

}  // namespace

DrawnBeam draw_beam(const Fixture& fixture) {
    constexpr int kBatches = 20;
    constexpr int kWalks = 20000;
    constexpr int kSteps = 100;
    const Emitter emitter(fixture);
    const double half_beam = 0.5 * fixture.beam_angle;
    const double half_field = 0.5 * fixture.field_angle;
    DrawnBeam drawn;
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

}  // namespace dapple::published
