#include "render/prepare/walk_budget.h"

#include <cmath>

#include "base/parallel.h"
#include "math/box_ray.h"
#include "math/sequences.h"

namespace dapple {

namespace {

constexpr uint32_t kProbes = 4096;
constexpr uint32_t kQuickProbes = 512;

double share_that_meets(const Emitter& emitter, const std::vector<Bounds>& boxes, uint32_t probes) {
    if (boxes.empty() || !(emitter.lumens() > 0)) return 0;
    double met = 0;
    double all = 0;
    for (uint32_t i = 0; i < probes; ++i) {
        const auto u = sobol_owen_4d(i, 1);
        const LampLight light = emitter.sample_emission(u[0], u[1], u[2], u[3]);
        if (!(light.luminance > 0.0F)) continue;
        // The rays of an aimed emitter carry unequal amounts of light.
        const double flux = light.luminance * light.cos_lamp / light.pdf_direction;
        all += flux;
        for (const Bounds& box : boxes) {
            if (!box.empty() && meets(box, light.position, light.direction)) {
                met += flux;
                break;
            }
        }
    }
    return all > 0 ? met / all : 0;
}

}  // namespace

std::vector<int> make_walk_budget(const std::vector<Emitter>& emitters,
                                  const World& world,
                                  int64_t walks,
                                  double share_without_glass,
                                  bool is_quick) {
    const std::vector<Bounds>& glass = world.broken_beam_bounds();
    const uint32_t probes = is_quick ? kQuickProbes : kProbes;
    double flux = 0;
    double flux_in_glass = 0;
    std::vector<double> in_glass(emitters.size());  // lm, per emitter
    parallel_blocks(static_cast<int64_t>(emitters.size()), 1, [&](int64_t first, int64_t) {
        const Emitter& emitter = emitters[static_cast<size_t>(first)];
        in_glass[static_cast<size_t>(first)] =
            share_that_meets(emitter, glass, probes) * emitter.lumens();
    });
    for (size_t i = 0; i < emitters.size(); ++i) {
        flux_in_glass += in_glass[i];
        flux += emitters[i].lumens();
    }
    std::vector<int> budget(emitters.size(), 0);
    if (!(flux > 0)) return budget;
    const auto total = static_cast<double>(walks);
    for (size_t i = 0; i < emitters.size(); ++i) {
        if (!(emitters[i].lumens() > 0)) continue;
        const double by_flux = emitters[i].lumens() / flux;
        const double n = flux_in_glass > 0
                             ? total * (0.7 * in_glass[i] / flux_in_glass + 0.3 * by_flux)
                             : total * share_without_glass * by_flux;
        budget[i] = std::max(1, static_cast<int>(std::lround(n)));
    }
    return budget;
}

}  // namespace dapple
