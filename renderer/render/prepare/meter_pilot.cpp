#include "render/prepare/meter_pilot.h"

#include "base/parallel.h"
#include "transport/light_walk.h"
#include "transport/meter_walk.h"

namespace dapple {

namespace {

// Collects what light walks add to readings.
class FallenSink final : public LightSink {
  public:
    void add_splat(std::span<const SplatPart>,
                   const Footprint&,
                   const SurfacePoint&,
                   int) override {}
    void add_reading(int meter, int, const Spectrum& lux) override {
        if (lux.is_finite()) fallen.push_back({index, meter, static_cast<double>(lux.mean())});
    }

    int index = 0;  // of the light walk that is traced
    std::vector<FallenWalk> fallen;
};

}  // namespace

std::vector<FallenWalk> find_fallen_walks(const Stage& stage, int fixture) {
    constexpr int64_t kPerBlock = 512;
    const int64_t walks = stage.walks.light[static_cast<size_t>(fixture)];
    const SobolOwen4d starts = light_walk_starts(stage, fixture);
    std::vector<FallenSink> sinks(static_cast<size_t>((walks + kPerBlock - 1) / kPerBlock));
    parallel_blocks(walks, kPerBlock, [&](int64_t first, int64_t last) {
        FallenSink& sink = sinks[static_cast<size_t>(first / kPerBlock)];
        WalkCounts counts;
        for (int64_t i = first; i < last; ++i) {
            sink.index = static_cast<int>(i);
            trace_light_walk(stage, {fixture, sink.index}, starts, {sink}, counts);
        }
    });
    std::vector<FallenWalk> all;
    for (const FallenSink& sink : sinks) {
        all.insert(all.end(), sink.fallen.begin(), sink.fallen.end());
    }
    return all;
}

std::vector<double> read_by_meter_walks(const Stage& stage, int walks) {
    std::vector<double> lux(stage.receptors.size(), 0.0);
    parallel_blocks(static_cast<int64_t>(lux.size()), 1, [&](int64_t first, int64_t) {
        WalkCounts counts;
        std::vector<Spectrum> by_fixture(stage.emitters.size(), Spectrum(0.0F));
        const auto meter = static_cast<size_t>(first);
        for (int i = 0; i < walks; ++i) {
            trace_meter_walk(stage, static_cast<int>(meter), i, by_fixture, counts);
        }
        double sum = 0;
        for (const Spectrum& s : by_fixture) {
            if (s.is_finite()) sum += static_cast<double>(s.mean());
        }
        lux[meter] = sum / walks * static_cast<double>(stage.receptors[meter].lux_per_walk());
    });
    return lux;
}

}  // namespace dapple
