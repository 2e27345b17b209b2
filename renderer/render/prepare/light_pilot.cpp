#include "render/prepare/light_pilot.h"

#include <algorithm>
#include <cmath>

#include "base/parallel.h"
#include "transport/light_walk.h"

namespace dapple {

namespace {

constexpr double kMostPilotWalks = 12000;  // of all fixtures
constexpr int64_t kPilotWalksPerBlock = 64;

// Light walks of the pilot are joined to no sensor.
class NoSensors : public LightSink {
  public:
    void add_splat(std::span<const SplatPart> /*parts*/,
                   const Footprint& /*footprint*/,
                   const SurfacePoint& /*at*/,
                   int /*fixture*/) override {}
    void add_reading(int /*meter*/, int /*fixture*/, const Spectrum& /*lux*/) override {}
};

// Of each fixture its share of the walks.
std::vector<int> pilot_walks(const std::vector<int>& usual) {
    double all = 0;
    for (const int n : usual) all += n;
    const double share = std::min(1.0, kMostPilotWalks / std::max(1.0, all));
    std::vector<int> walks;
    for (const int n : usual) {
        walks.push_back(n > 0 ? std::max(1, static_cast<int>(std::lround(share * n))) : 0);
    }
    return walks;
}

void trace_fixture(const Stage& stage, int fixture, StoredVertexList& vertices) {
    const int64_t walks = stage.walks.light[static_cast<size_t>(fixture)];
    const SobolOwen4d starts = light_walk_starts(stage, fixture);
    std::vector<StoredVertexList> blocks(
        static_cast<size_t>((walks + kPilotWalksPerBlock - 1) / kPilotWalksPerBlock));
    parallel_blocks(walks, kPilotWalksPerBlock, [&](int64_t first, int64_t last) {
        NoSensors sink;
        WalkCounts counts;
        StoredVertexList& block = blocks[static_cast<size_t>(first / kPilotWalksPerBlock)];
        for (auto i = static_cast<int>(first); i < static_cast<int>(last); ++i) {
            trace_light_walk(stage, {fixture, i}, starts, {sink, nullptr, &block}, counts);
        }
    });
    for (const StoredVertexList& block : blocks) {
        vertices.insert(vertices.end(), block.begin(), block.end());
    }
}

}  // namespace

LightPilot trace_light_pilot(const Setup& setup, const std::vector<int>& light_walks) {
    const Wavelengths wavelengths = make_pass_wavelengths(0, 0);
    const PassMaterials materials(setup.materials, wavelengths);
    PassWalks walks = no_light_walks(setup);
    walks.light = pilot_walks(light_walks);
    LightPilot pilot;
    for (size_t f = 0; f < light_walks.size(); ++f) {
        const int traced = walks.light[f];
        pilot.usual_walks_per_walk.push_back(
            traced > 0 ? static_cast<double>(light_walks[f]) / traced : 0.0);
    }
    Stage stage = setup.stage(materials, walks, 0, 0);
    stage.makes_frame = false;
    stage.receptors = {};
    for (size_t f = 0; f < light_walks.size(); ++f) {
        trace_fixture(stage, static_cast<int>(f), pilot.vertices);
    }
    return pilot;
}

}  // namespace dapple
