#include "render/prepare/aim_emitters.h"

#include <algorithm>
#include <utility>

#include "math/sequences.h"
#include "render/prepare/beam_end.h"
#include "render/prepare/glass_windows.h"

namespace dapple {

namespace {

constexpr uint32_t kBeamProbes = 4096;
constexpr double kGlassOverRest = 10;
constexpr double kLeastGain = 1.2;

// Share of the beam that falls on cloth.
double share_on_cloth(const Scene& scene, const World& world, const Emitter& emitter) {
    double met = 0;
    for (uint32_t i = 0; i < kBeamProbes; ++i) {
        const auto u = sobol_owen_4d(i, 1);
        const LampLight light = emitter.sample_emission(u[0], u[1], u[2], u[3]);
        if (!(light.luminance > 0.0F)) continue;
        met += find_beam_end(scene, world, light).kind == MaterialKind::kSheet ? 1 : 0;
    }
    return met / kBeamProbes;
}

void aim_emitter(const Scene& scene, const World& world, Emitter& emitter) {
    GlassWindows glass = find_glass_windows(scene, world, emitter);
    if (glass.windows.empty()) return;
    const double g = std::min(glass.lumens / emitter.lumens(), 1.0);
    const double c = share_on_cloth(scene, world, emitter);
    const double more = (kGlassOverRest - 1) * g;
    const double share = more / (1 + more) * g / (g + c);
    const double gain = 1 - share + share / g;
    if (gain < kLeastGain) return;
    emitter.aim(Aim(std::move(glass.windows), glass.cells, static_cast<float>(share)));
}

}  // namespace

void aim_emitters(const Scene& scene, const World& world, std::vector<Emitter>& emitters) {
    for (Emitter& emitter : emitters) {
        if (emitter.lumens() > 0) aim_emitter(scene, world, emitter);
    }
}

}  // namespace dapple
