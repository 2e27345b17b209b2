#include "render/prepare/aim_at_meters.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "base/parallel.h"
#include "render/prepare/glass_windows.h"
#include "render/read_meters.h"
#include "transport/light_walk.h"
#include "transport/meter_walk.h"

namespace dapple {

namespace {

constexpr int kPilotWalks = 16384;       // light walks of each fixture in one pilot
constexpr int kPilotMeterWalks = 512;    // of each meter in one pilot
constexpr float kReceptorScales[] = {8, 4, 2, 1};
constexpr double kAimedInPilot = 0.9;    // share of a pilot's walks that is aimed at glass
constexpr double kExploring = 0.3;       // share of those that is spread over all glass
constexpr double kOfPilotBefore = 0.25;  // share of the last pilot but one in the result
constexpr double kMostAtMeters = 0.9;    // of a fixture's light walks
constexpr double kWalksForMeters = 0.7;  // of all light walks
constexpr uint64_t kPilotSeed = 0x70696c6f74;

// One walk of a pilot that fell on a receptor.
struct Fallen {
    int index = 0;  // of the light walk
    int meter = 0;
    double lux = 0;  // mean over the wavelengths
};

// Collects what light walks add to readings, walk by walk.
class FallenSink final : public LightSink {
  public:
    void add_splat(std::span<const SplatPart>,
                   const Footprint&,
                   const SurfacePoint&,
                   int) override {}
    void add_reading(int meter, int, const Spectrum& lux) override {
        fallen.push_back({index, meter, static_cast<double>(lux.mean())});
    }
    int index = 0;
    std::vector<Fallen> fallen;
};

std::vector<Fallen> trace_pilot_walks(const Stage& stage, int fixture) {
    constexpr int64_t kPerBlock = 512;
    const SobolOwen4d starts = light_walk_starts(stage, fixture);
    std::vector<FallenSink> sinks((kPilotWalks + kPerBlock - 1) / kPerBlock);
    parallel_blocks(kPilotWalks, kPerBlock, [&](int64_t first, int64_t last) {
        FallenSink& sink = sinks[static_cast<size_t>(first / kPerBlock)];
        WalkCounts counts;
        for (auto i = static_cast<int>(first); i < static_cast<int>(last); ++i) {
            sink.index = i;
            trace_light_walk(stage, {fixture, i}, starts, {sink}, counts);
        }
    });
    std::vector<Fallen> all;
    for (const FallenSink& sink : sinks) {
        all.insert(all.end(), sink.fallen.begin(), sink.fallen.end());
    }
    return all;
}

// What meter walks and next-event estimation find, lx; without most of the light through glass.
std::vector<double> readings_without_light_walks(const Stage& stage) {
    std::vector<double> lux(stage.receptors.size(), 0.0);
    parallel_blocks(static_cast<int64_t>(lux.size()), 1, [&](int64_t first, int64_t) {
        WalkCounts counts;
        std::vector<Spectrum> by_fixture(stage.emitters.size(), Spectrum(0.0F));
        const auto m = static_cast<size_t>(first);
        for (int i = 0; i < kPilotMeterWalks; ++i) {
            trace_meter_walk(stage, static_cast<int>(m), i, by_fixture, counts);
        }
        for (const Spectrum& s : by_fixture) {
            lux[m] += static_cast<double>(s.mean()) / kPilotMeterWalks;
        }
        lux[m] *= static_cast<double>(stage.receptors[m].lux_per_walk());
    });
    return lux;
}

std::vector<Receptor> scaled_receptors(const Scene& scene, float scale) {
    std::vector<Receptor> receptors;
    for (Meter meter : scene.meters) {
        meter.diameter *= scale;
        meter.size *= scale;
        receptors.emplace_back(meter);
    }
    return receptors;
}

// The cell of the first window that the walk's first ray meets; -1: none.
int cell_of(const std::vector<AimWindow>& windows, const LampLight& light) {
    for (size_t i = 0; i < windows.size(); ++i) {
        const int cell = windows[i].crossed_by(light.position, light.direction).cell;
        if (cell >= 0) return static_cast<int>(i) * AimWindow::kCells + cell;
    }
    return -1;
}

void normalize(std::vector<double>& weights) {
    const double sum = std::accumulate(weights.begin(), weights.end(), 0.0);
    for (double& w : weights) w /= sum;
}

// (1 - share) a + share b; both have the sum 1.
std::vector<double> mixed(const std::vector<double>& a,
                          const std::vector<double>& b,
                          double share) {
    std::vector<double> out(a.size());
    for (size_t i = 0; i < a.size(); ++i) out[i] = (1 - share) * a[i] + share * b[i];
    return out;
}

// One lamp during the pilots.
struct PilotLamp {
    int fixture = 0;
    GlassWindows glass;                // its cells have the sum 1
    std::vector<double> found;         // P(cell) by the last pilot; empty: nothing was found
    std::vector<double> found_before;  // by the pilot before
    double need = 0;                   // sum of the last pilot's roots

    Aim pilot_aim() const {
        const std::vector<double> cells =
            found.empty() ? glass.cells : mixed(glass.cells, found, 1 - kExploring);
        return {glass.windows, cells, static_cast<float>(kAimedInPilot)};
    }
    void learn(const Stage& stage,
               const std::vector<Fallen>& fallen,
               const std::vector<double>& readings);
    void aim(double share_at_meters, Emitter& emitter) const;
};

void PilotLamp::learn(const Stage& stage,
                      const std::vector<Fallen>& fallen,
                      const std::vector<double>& readings) {
    const SobolOwen4d starts = light_walk_starts(stage, fixture);
    const Emitter& emitter = stage.emitters[static_cast<size_t>(fixture)];
    std::vector<double> squares(glass.cells.size(), 0.0);
    for (const Fallen& f : fallen) {
        const auto u = starts.point(static_cast<uint32_t>(f.index));
        const LampLight light = emitter.sample_emission(u[0], u[1], u[2], u[3]);
        const int cell = cell_of(glass.windows, light);
        if (cell < 0) continue;
        const double relative = f.lux / readings[static_cast<size_t>(f.meter)];
        squares[static_cast<size_t>(cell)] +=
            relative * relative * kPilotWalks * light.pdf_area * light.pdf_direction;
    }
    std::vector<double> roots = blur_cells(squares);
    for (size_t i = 0; i < roots.size(); ++i) {
        roots[i] = std::sqrt(glass.windows[i / AimWindow::kCells].cell_area() * roots[i]);
    }
    need = std::accumulate(roots.begin(), roots.end(), 0.0);
    if (!(need > 0)) return;
    found_before = std::exchange(found, std::move(roots));
    normalize(found);
    if (found_before.empty()) found_before = found;
}

// Adds the cells that were found to the emitter's own aim.
void PilotLamp::aim(double share_at_meters, Emitter& emitter) const {
    const double own = (1 - share_at_meters) * static_cast<double>(emitter.aim().share());
    const double share = own + share_at_meters;
    const std::vector<double> at_meters = mixed(found, found_before, kOfPilotBefore);
    emitter.aim({glass.windows,
                 mixed(glass.cells, at_meters, share_at_meters / share),
                 static_cast<float>(share)});
}

// The lamps whose light enters glass.
std::vector<PilotLamp> find_pilot_lamps(const Setup& setup) {
    std::vector<PilotLamp> lamps;
    for (size_t f = 0; f < setup.emitters.size(); ++f) {
        if (!(setup.emitters[f].lumens() > 0)) continue;
        PilotLamp lamp;
        lamp.fixture = static_cast<int>(f);
        lamp.glass = find_glass_windows(setup.scene, setup.world, setup.emitters[f]);
        if (lamp.glass.windows.empty()) continue;
        normalize(lamp.glass.cells);
        lamps.push_back(std::move(lamp));
    }
    return lamps;
}

// One pilot of all lamps.
void run_pilot(Setup& setup, uint32_t number, std::vector<PilotLamp>& lamps) {
    const PassMaterials materials(setup.materials, make_pass_wavelengths(kPilotSeed, number));
    PassWalks walks = no_light_walks(setup);
    walks.per_meter = kPilotMeterWalks;
    for (const PilotLamp& lamp : lamps) {
        const auto f = static_cast<size_t>(lamp.fixture);
        walks.light[f] = kPilotWalks;
        setup.emitters[f].aim(lamp.pilot_aim());
    }
    const std::vector<Receptor> receptors =
        scaled_receptors(setup.scene, kReceptorScales[number]);
    Stage stage = setup.stage(materials, std::move(walks), kPilotSeed, number);
    stage.receptors = receptors;
    std::vector<double> readings = readings_without_light_walks(stage);
    std::vector<std::vector<Fallen>> fallen;
    for (const PilotLamp& lamp : lamps) {
        fallen.push_back(trace_pilot_walks(stage, lamp.fixture));
        for (const Fallen& f : fallen.back()) readings[static_cast<size_t>(f.meter)] += f.lux;
    }
    for (size_t i = 0; i < lamps.size(); ++i) lamps[i].learn(stage, fallen[i], readings);
}

}  // namespace

void aim_at_meters(Setup& setup, PassWalks& walks) {
    std::vector<PilotLamp> lamps = find_pilot_lamps(setup);
    const std::vector<Emitter> emitters = setup.emitters;
    for (uint32_t i = 0; i < std::size(kReceptorScales); ++i) run_pilot(setup, i, lamps);
    setup.emitters = emitters;
    double needed = 0;
    for (const PilotLamp& lamp : lamps) needed += lamp.need;
    if (!(needed > 0)) return;
    const double all = std::accumulate(walks.light.begin(), walks.light.end(), 0.0);
    for (const PilotLamp& lamp : lamps) {
        const auto f = static_cast<size_t>(lamp.fixture);
        const double others = (1 - kWalksForMeters) * walks.light[f];
        const double at_meters = kWalksForMeters * all * lamp.need / needed;
        const double share = std::min(kMostAtMeters, at_meters / (at_meters + others));
        // Enough walks of the lamp's own beam are still joined to the meters.
        const double joined = walks.joined_to_meters[f] / (1 - share);
        walks.joined_to_meters[f] = static_cast<int>(std::lround(joined));
        walks.light[f] = std::max(static_cast<int>(std::lround(at_meters + others)),
                                  walks.joined_to_meters[f]);
        if (!lamp.found.empty()) lamp.aim(share, setup.emitters[f]);
    }
}

}  // namespace dapple
