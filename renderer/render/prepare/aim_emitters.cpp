#include "render/prepare/aim_emitters.h"

#include <algorithm>
#include <utility>

#include "base/parallel.h"
#include "math/sequences.h"
#include "render/prepare/beam_end.h"
#include "render/prepare/glass_windows.h"

namespace dapple {

namespace {

constexpr uint32_t kBeamProbes = 4096;
constexpr uint32_t kQuickBeamProbes = 512;
constexpr double kGlassOverRest = 10;
constexpr double kLeastGain = 1.2;

// Share of the beam that falls on cloth.
double share_on_cloth(const Scene& scene,
                      const World& world,
                      const Emitter& emitter,
                      bool is_quick) {
    const uint32_t probes = is_quick ? kQuickBeamProbes : kBeamProbes;
    double met = 0;
    for (uint32_t i = 0; i < probes; ++i) {
        const auto u = sobol_owen_4d(i, 1);
        const LampLight light = emitter.sample_emission(u[0], u[1], u[2], u[3]);
        if (!(light.luminance > 0.0F)) continue;
        met += find_beam_end(scene, world, light).kind == MaterialKind::kSheet ? 1 : 0;
    }
    return met / probes;
}

// Of an earlier frame, for one lamp.
struct KeptProbes {
    const LampProbes* lamp = nullptr;  // nullptr: the lamp was another
    bool is_quick = false;             // there was an earlier frame: new probes have fewer rays
};

void aim_emitter(const Scene& scene,
                 const World& world,
                 const KeptProbes& kept_probes,
                 LampProbes& probes,
                 Emitter& emitter) {
    if (!(emitter.lumens() > 0)) return;
    const auto& [kept, is_quick] = kept_probes;
    probes.windows = probe_glass(scene, world, emitter, kept, is_quick);
    GlassWindows glass = windows_with_light(probes.windows);
    if (glass.windows.empty()) return;
    const double g = std::min(glass.lumens / emitter.lumens(), 1.0);
    probes.share_on_cloth = kept && kept->share_on_cloth
                                ? *kept->share_on_cloth
                                : share_on_cloth(scene, world, emitter, is_quick);
    const double c = *probes.share_on_cloth;
    const double more = (kGlassOverRest - 1) * g;
    const double share = more / (1 + more) * g / (g + c);
    const double gain = 1 - share + share / g;
    if (gain < kLeastGain) return;
    emitter.aim(Aim(std::move(glass.windows), glass.cells, static_cast<float>(share)));
    return;
}

}  // namespace

void aim_emitters(const Scene& scene,
                  const World& world,
                  const std::vector<LampProbes>& kept,
                  std::vector<LampProbes>& probes,
                  std::vector<Emitter>& emitters) {
    const std::vector<bool> is_same = same_lamps(probes, kept);
    parallel_blocks(static_cast<int64_t>(emitters.size()), 1, [&](int64_t first, int64_t) {
        const auto f = static_cast<size_t>(first);
        const KeptProbes of_lamp{is_same[f] ? &kept[f] : nullptr, !kept.empty()};
        aim_emitter(scene, world, of_lamp, probes[f], emitters[f]);
    });
}

}  // namespace dapple
