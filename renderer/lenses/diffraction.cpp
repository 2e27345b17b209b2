#include "lenses/diffraction.h"

#include <algorithm>
#include <cmath>

#include "base/random.h"
#include "base/units.h"
#include "lenses/fourier.h"

namespace dapple {

namespace {

constexpr int kEdgeSamples = 4;  // across a sample of the aperture

// Specks of this median diameter, log-normal: most between 10 and 200 µm (ours).
constexpr double kSpeckMedian = 0.045;  // mm
constexpr double kSpeckSpread = 0.75;
constexpr double kScratchWidth = 0.015;  // mm

struct Speck {
    double x = 0, y = 0, radius = 0;  // in diameters of the pupil
};
struct Scratch {
    double x = 0, y = 0, cos = 1, sin = 0, half_length = 0, half_width = 0;
};

double normal_number(RandomStream& random) {  // Box and Muller 1958
    const double u = 1 - static_cast<double>(random.next());
    return std::sqrt(-2 * std::log(u)) * std::cos(2 * kPi * static_cast<double>(random.next()));
}

DVec2 place_in_pupil(RandomStream& random) {
    const double r = 0.5 * std::sqrt(static_cast<double>(random.next()));
    const double a = 2 * kPi * static_cast<double>(random.next());
    return {r * std::cos(a), r * std::sin(a)};
}

// Specks by the strips of the pupil, along y, that they reach into: a place asks only its own
// strip.
constexpr int kStrips = 128;
size_t strip_of(double y) {
    return static_cast<size_t>(std::clamp(static_cast<int>((y + 0.5) * kStrips), 0, kStrips - 1));
}
std::vector<std::vector<Speck>> in_strips(const std::vector<Speck>& specks) {
    std::vector<std::vector<Speck>> strips(kStrips);
    for (const Speck& s : specks) {
        const size_t last = strip_of(s.y + s.radius);
        for (size_t k = strip_of(s.y - s.radius); k <= last; ++k) strips[k].push_back(s);
    }
    return strips;
}

std::vector<Speck> make_specks(const Dust& dust, double pupil_mm) {
    std::vector<Speck> specks;
    for (int i = 0; i < dust.specks; ++i) {
        RandomStream random(dust.seed, static_cast<uint32_t>(i), 0, Purpose::kPilot);
        const DVec2 at = place_in_pupil(random);
        const double size = kSpeckMedian * std::exp(kSpeckSpread * normal_number(random));
        specks.push_back({at.x, at.y, 0.5 * size / pupil_mm});
    }
    return specks;
}

std::vector<Scratch> make_scratches(const Dust& dust, double pupil_mm) {
    std::vector<Scratch> scratches;
    for (int i = 0; i < dust.scratches; ++i) {
        RandomStream random(dust.seed, static_cast<uint32_t>(i), 1, Purpose::kPilot);
        const DVec2 at = place_in_pupil(random);
        const double a = kPi * static_cast<double>(random.next());
        const double length = 1 + 4 * static_cast<double>(random.next());  // mm
        scratches.push_back({at.x,
                             at.y,
                             std::cos(a),
                             std::sin(a),
                             0.5 * length / pupil_mm,
                             0.5 * kScratchWidth / pupil_mm});
    }
    return scratches;
}

// The mean of what passes over a sample of the aperture.
float sample_of(const std::function<float(double, double)>& passes,
                double x,
                double y,
                double pitch) {
    float sum = 0;
    for (int k = 0; k < kEdgeSamples * kEdgeSamples; ++k) {
        const double u = ((k % kEdgeSamples) + 0.5) / kEdgeSamples - 0.5;
        const double v = ((k / kEdgeSamples) + 0.5) / kEdgeSamples - 0.5;
        sum += passes(x + u * pitch, y + v * pitch);
    }
    return sum / (kEdgeSamples * kEdgeSamples);
}

}  // namespace

DiffractionSpread diffract(const std::function<float(double x, double y)>& passes,
                           int across,
                           int size) {
    const PlaneFourier fourier(size, size);
    RealPlane aperture = fourier.make_plane();
    const double pitch = 1.0 / across;
    for (int y = 0; y < size; ++y) {
        for (int x = 0; x < size; ++x) {
            const double px = (x + 0.5 - 0.5 * size) * pitch;
            const double py = (y + 0.5 - 0.5 * size) * pitch;
            if (std::max(std::abs(px), std::abs(py)) > 1.5) continue;
            aperture[static_cast<size_t>(y * size + x)] = sample_of(passes, px, py, pitch);
        }
    }
    const std::vector<float> power = fourier.power(aperture);
    double sum = 0;
    for (const float p : power) sum += static_cast<double>(p);
    DiffractionSpread spread{size, static_cast<double>(across) / size, {}};
    spread.values.resize(power.size());
    const auto scale = static_cast<float>(1 / sum);
    for (int y = 0; y < size; ++y) {
        for (int x = 0; x < size; ++x) {
            const int from = ((y + size / 2) % size) * size + (x + size / 2) % size;
            spread.values[static_cast<size_t>(y * size + x)] =
                scale * power[static_cast<size_t>(from)];
        }
    }
    return spread;
}

std::function<float(double x, double y)> aperture_of(const StopShape& stop,
                                                     double pupil_mm,
                                                     const Dust& dust) {
    StopShape shape = stop;
    const double m = stop.blades;
    shape.radius = stop.blades > 0 ? 0.5 * std::sqrt(kPi / (0.5 * m * std::sin(2 * kPi / m))) : 0.5;
    return [shape,
            strips = in_strips(make_specks(dust, pupil_mm)),
            scratches = make_scratches(dust, pupil_mm)](double x, double y) {
        if (!shape.passes(x, y)) return 0.0F;
        const std::vector<Speck>& specks = strips[strip_of(y)];
        const bool in_speck = std::any_of(specks.begin(), specks.end(), [&](const Speck& s) {
            const double dx = x - s.x;
            const double dy = y - s.y;
            return dx * dx + dy * dy < s.radius * s.radius;
        });
        const auto covers = [&](const Scratch& s) {
            const double along = (x - s.x) * s.cos + (y - s.y) * s.sin;
            const double beside = (y - s.y) * s.cos - (x - s.x) * s.sin;
            return std::abs(along) < s.half_length && std::abs(beside) < s.half_width;
        };
        return in_speck || std::any_of(scratches.begin(), scratches.end(), covers) ? 0.0F : 1.0F;
    };
}

StopEdges edges_of(const StopShape& stop) {
    StopEdges edges;
    if (stop.blades == 0) return edges;
    const double m = stop.blades;
    const double radius = 0.5 * std::sqrt(kPi / (0.5 * m * std::sin(2 * kPi / m)));
    edges.length = 2 * radius * std::sin(kPi / m);
    for (int k = 0; k < stop.blades; ++k) {
        edges.normals.push_back(stop.turn + (2 * k + 1) * kPi / m);
    }
    return edges;
}

std::vector<double> star_rays(const StopShape& stop) {
    std::vector<double> rays;
    for (const double normal : edges_of(stop).normals) {
        for (const double side : {0.0, kPi}) {
            const double angle = std::fmod(std::fmod(normal + side, 2 * kPi) + 2 * kPi, 2 * kPi);
            const bool is_known = std::any_of(rays.begin(), rays.end(), [&](double other) {
                const double apart = std::abs(other - angle);
                return std::min(apart, 2 * kPi - apart) < 1e-9;
            });
            if (!is_known) rays.push_back(angle);
        }
    }
    return rays;
}

}  // namespace dapple
