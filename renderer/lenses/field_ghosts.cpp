#include "lenses/field_ghosts.h"

#include <cmath>
#include <vector>

#include "base/parallel.h"
#include "base/units.h"

namespace dapple {

namespace {

constexpr int kAngles = 16;
constexpr double kWidest = 64 * kPi / 180;  // beyond, next to nothing arrives
constexpr int kRays = 24;                   // across the front element
constexpr int kFieldBand = 4;               // 550 nm
constexpr double kFarLamp = 1e6;            // mm

double angle_of(int k) {
    return kWidest * (k + 0.5) / kAngles;
}

// Light on the image circle from all angles, by one route; the field has the same luminance
// everywhere. Not scaled.
double light_on_circle(const RealLens& lens,
                       const Hood& hood,
                       const LightRoute& route,
                       double circle) {
    const double a = lens.front_radius();
    double sum = 0;
    for (int k = 0; k < kAngles; ++k) {
        const double angle = angle_of(k);
        const LensVec lamp(kFarLamp * std::sin(angle), 0, -kFarLamp * std::cos(angle));
        double share = 0;
        for (int i = 0; i < kRays * kRays; ++i) {
            const double x = a * ((2 * (i % kRays) + 1.0) / kRays - 1);
            const double y = a * ((2 * (i / kRays) + 1.0) / kRays - 1);
            const LensRay ray = ray_to_front(lamp, x, y);
            if (x * x + y * y > a * a || !hood.lets_in(ray)) continue;
            const LensArrival arrival = trace_route(lens, route, ray, kFieldBand);
            if (!is_through(lens, route, arrival) || glm::length(arrival.film) > circle) continue;
            share += static_cast<double>(arrival.passed[kFieldBand]);
        }
        sum += share * std::sin(angle) * std::cos(angle);
    }
    return sum;
}

}  // namespace

double ghosts_of_bright_field(const Camera& camera, const RealLens& lens, const Hood& hood) {
    const double circle = 0.5e3 * static_cast<double>(glm::length(camera.sensor));
    const auto pairs = ghost_pairs(lens.glass());
    std::vector<double> ghosts(pairs.size());
    parallel_blocks(static_cast<int64_t>(pairs.size()), 1, [&](int64_t first, int64_t) {
        const auto k = static_cast<size_t>(first);
        const LightRoute route = ghost_route(lens.glass(), pairs[k].first, pairs[k].second);
        ghosts[k] = light_on_circle(lens, hood, route, circle);
    });
    double sum = 0;
    for (const double g : ghosts) sum += g;
    const double image = light_on_circle(lens, hood, image_route(lens.glass()), circle);
    return image > 0 ? sum / image : 0;
}

}  // namespace dapple
