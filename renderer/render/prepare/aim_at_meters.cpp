#include "render/prepare/aim_at_meters.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <utility>

#include "render/prepare/meter_aim.h"

namespace dapple {

namespace {

// Each pilot: how much larger its receptors are, and its light walks of each fixture.
struct PilotSize {
    float receptor_scale = 1;
    int light_walks = 0;
};
constexpr PilotSize kPilots[] = {{16, 16384}, {8, 16384}, {4, 16384}, {2, 32768}, {1, 98304}};
constexpr int kPilotMeterWalks = 1024;    // of each meter
constexpr float kLargestReceptor = 0.5F;  // m, of a receptor that is larger in a pilot
constexpr double kLeastNeed = 1e-3;       // of all fixtures' need
constexpr double kMostAtMeters = 0.7;     // of a fixture's light walks
constexpr double kWalksForMeters = 0.7;   // of all light walks
constexpr uint64_t kPilotSeed = 0x70696c6f74;

std::vector<Receptor> make_receptors(const Scene& scene, float scale) {
    std::vector<Receptor> receptors;
    for (Meter meter : scene.meters) {
        const float size = std::max({meter.diameter, meter.size.x, meter.size.y});
        const float larger = std::max(1.0F, std::min(scale, kLargestReceptor / size));
        meter.diameter *= larger;
        meter.size *= larger;
        receptors.emplace_back(meter);
    }
    return receptors;
}

// One pilot after another, each aimed by the one before.
class MeterPilots {
  public:
    MeterPilots(const Setup& setup, WorkWatch& watch);
    void run();
    const std::vector<MeterAim>& aims() const { return aims_; }
    double need() const;

  private:
    Stage stage(const PassMaterials& materials, uint32_t number);
    void run_one(uint32_t number);

    Setup setup_;
    WorkWatch& watch_;
    std::vector<MeterAim> aims_;       // of the lamps whose light enters glass
    std::vector<double> other_light_;  // readings without most of the light through glass, lx
};

MeterPilots::MeterPilots(const Setup& setup, WorkWatch& watch) : setup_(setup), watch_(watch) {
    for (size_t f = 0; f < setup_.emitters.size(); ++f) {
        if (!(setup_.emitters[f].lumens() > 0)) continue;
        GlassWindows glass = find_glass_windows(setup_.scene, setup_.world, setup_.emitters[f]);
        if (glass.windows.empty()) continue;
        aims_.emplace_back(static_cast<int>(f), std::move(glass));
    }
}

double MeterPilots::need() const {
    double sum = 0;
    for (const MeterAim& aim : aims_) sum += aim.need();
    return sum;
}

Stage MeterPilots::stage(const PassMaterials& materials, uint32_t number) {
    PassWalks walks = no_light_walks(setup_);
    walks.per_meter = kPilotMeterWalks;
    for (const MeterAim& aim : aims_) {
        walks.light[static_cast<size_t>(aim.fixture())] = kPilots[number].light_walks;
    }
    return setup_.stage(materials, std::move(walks), kPilotSeed, number);
}

void MeterPilots::run_one(uint32_t number) {
    setup_.receptors = make_receptors(setup_.scene, kPilots[number].receptor_scale);
    for (const MeterAim& aim : aims_) {
        setup_.emitters[static_cast<size_t>(aim.fixture())].aim(aim.pilot_aim());
    }
    const PassMaterials materials(setup_.materials, make_pass_wavelengths(kPilotSeed, number));
    const Stage pilot = stage(materials, number);
    std::vector<double> readings = other_light_;
    std::vector<std::vector<FallenWalk>> fallen;
    for (const MeterAim& aim : aims_) {
        watch_.next_block_or_throw();
        fallen.push_back(find_fallen_walks(pilot, aim.fixture()));
        for (const FallenWalk& walk : fallen.back()) {
            readings[static_cast<size_t>(walk.meter)] += walk.lux;
        }
    }
    for (size_t i = 0; i < aims_.size(); ++i) aims_[i].learn(pilot, fallen[i], readings);
}

void MeterPilots::run() {
    // Some lamps are left out after a pilot, so the step may end early.
    const size_t blocks = 1 + std::size(kPilots) * aims_.size();
    watch_.start_step(WorkStep::kPilotWalks, static_cast<int64_t>(blocks));
    watch_.next_block_or_throw();
    const PassMaterials materials(setup_.materials, make_pass_wavelengths(kPilotSeed, 0));
    other_light_ = read_by_meter_walks(stage(materials, 0), kPilotMeterWalks);
    for (uint32_t i = 0; i < std::size(kPilots); ++i) {
        run_one(i);
        const double least = kLeastNeed * need();
        std::erase_if(aims_, [&](const MeterAim& aim) { return !(aim.need() > least); });
    }
}

}  // namespace

void aim_at_meters(Setup& setup, PassWalks& walks, WorkWatch& watch) {
    MeterPilots pilots(setup, watch);
    pilots.run();
    const double all = std::accumulate(walks.light.begin(), walks.light.end(), 0.0);
    double roots = 0;
    for (const MeterAim& aim : pilots.aims()) roots += std::sqrt(aim.need());
    for (const MeterAim& aim : pilots.aims()) {
        const auto f = static_cast<size_t>(aim.fixture());
        const double others = (1 - kWalksForMeters) * walks.light[f];
        const double at_meters = kWalksForMeters * all * std::sqrt(aim.need()) / roots;
        const double share = std::min(kMostAtMeters, at_meters / (at_meters + others));
        // The joined walks are among those aimed at meters, so more of them are joined.
        const double joined = walks.joined_to_meters[f] * std::min(2.0, 1 / (1 - share));
        walks.joined_to_meters[f] = static_cast<int>(std::lround(joined));
        walks.light[f] =
            std::max(static_cast<int>(std::lround(at_meters + others)), walks.joined_to_meters[f]);
        Emitter& emitter = setup.emitters[f];
        emitter.aim(aim.added_to(emitter.aim(), share));
    }
}

}  // namespace dapple
