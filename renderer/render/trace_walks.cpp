#include "render/trace_walks.h"

#include <array>

#include "base/parallel.h"
#include "render/walk_order.h"
#include "transport/meter_walk.h"

namespace dapple {

namespace {

constexpr int64_t kPixelsPerBlock = 128;
constexpr int64_t kLightWalksPerBlock = 512;
constexpr int64_t kMeterWalksPerBlock = 128;

int64_t blocks_of(int64_t count, int64_t per_block) {
    return (count + per_block - 1) / per_block;
}

int64_t light_blocks(const Stage& stage) {
    int64_t blocks = 0;
    for (const int walks : stage.walks.light) blocks += blocks_of(walks, kLightWalksPerBlock);
    return blocks;
}

}  // namespace

size_t KeptVertices::add_blocks(size_t blocks) {
    const size_t first = blocks_;
    blocks_ += blocks;
    if (photons) photons->resize(blocks_);
    if (stored) stored->resize(blocks_);
    if (beams) beams->resize(blocks_);
    return first;
}

void trace_light_walks(
    const Stage& stage, LightSink& sink, KeptVertices* kept, TotalCounts& total, WorkWatch& watch) {
    watch.start_step(WorkStep::kLightWalks, light_blocks(stage));
    for (size_t f = 0; f < stage.emitters.size(); ++f) {
        const int64_t walks = stage.walks.light[f];
        const auto fixture = static_cast<int>(f);
        if (watch.stopped()) return;
        const SobolOwen4d starts = light_walk_starts(stage, fixture);
        const std::vector<int> order = order_by_direction(starts, stage.walks.light[f]);
        const auto blocks = static_cast<size_t>(blocks_of(walks, kLightWalksPerBlock));
        const size_t first_list = kept ? kept->add_blocks(blocks) : 0;
        parallel_blocks(walks, kLightWalksPerBlock, [&](int64_t first, int64_t last) {
            if (!watch.next_block()) return;
            const size_t block = first_list + static_cast<size_t>(first / kLightWalksPerBlock);
            PhotonList* const photons = kept && kept->photons ? &(*kept->photons)[block] : nullptr;
            if (photons) photons->reserve(kLightWalksPerBlock);
            StoredVertexList* const stored =
                kept && kept->stored ? &(*kept->stored)[block] : nullptr;
            BeamList* const beams = kept && kept->beams ? &(*kept->beams)[block] : nullptr;
            WalkCounts counts;
            // The first half of the indices and the second half each fill the space of walks
            // evenly.
            const std::array<std::unique_ptr<LightSink>, 2> halves = {sink.make_buffered(0),
                                                                      sink.make_buffered(1)};
            for (int64_t i = first; i < last; ++i) {
                const int index = order[static_cast<size_t>(i)];
                const auto& half = halves[2 * index < walks ? 0 : 1];
                LightSink& walk_sink = half ? *half : sink;
                trace_light_walk(
                    stage, {fixture, index}, starts, {walk_sink, photons, stored, beams}, counts);
            }
            total.add(counts);
        });
    }
}

void trace_camera_walks(const Stage& stage,
                        const CameraPlan& plan,
                        FilmSink& sink,
                        TotalCounts& total,
                        WorkWatch& watch) {
    const Camera& camera = stage.scene.camera;
    const int64_t pixels = static_cast<int64_t>(camera.width) * camera.height;
    watch.start_step(WorkStep::kCameraWalks, blocks_of(pixels, kPixelsPerBlock));
    parallel_blocks(pixels, kPixelsPerBlock, [&](int64_t first, int64_t last) {
        if (!watch.next_block()) return;
        PixelTracer tracer(stage, plan, sink);
        for (int64_t pixel = first; pixel < last; ++pixel) tracer.trace(static_cast<int>(pixel));
        total.add(tracer.counts());
    });
}

void trace_camera_lattice(const Stage& stage,
                          const CameraPlan& plan,
                          FilmSink& sink,
                          TotalCounts& total,
                          WorkWatch& watch,
                          PixelLattice& lattice) {
    int64_t blocks = 0;
    for (size_t l = 0; l < lattice.levels(); ++l) {
        blocks += blocks_of(static_cast<int64_t>(lattice.level(l).size()), kPixelsPerBlock);
    }
    watch.start_step(WorkStep::kCameraWalks, blocks);
    for (size_t l = 0; l < lattice.levels(); ++l) {
        const std::span<const int32_t> pixels = lattice.level(l);
        const auto count = static_cast<int64_t>(pixels.size());
        parallel_blocks(count, kPixelsPerBlock, [&](int64_t first, int64_t last) {
            if (!watch.next_block()) return;
            PixelTracer tracer(stage, plan, sink);
            for (int64_t i = first; i < last; ++i) {
                const int32_t pixel = pixels[static_cast<size_t>(i)];
                tracer.trace(pixel);
                lattice.mark(pixel);
            }
            total.add(tracer.counts());
        });
    }
}

void trace_meter_walks(const Stage& stage, MeterFilm& film, TotalCounts& total, WorkWatch& watch) {
    const auto fixtures = stage.emitters.size();
    const auto meters = static_cast<int64_t>(stage.receptors.size());
    watch.start_step(WorkStep::kMeterWalks,
                     meters * blocks_of(stage.walks.per_meter, kMeterWalksPerBlock));
    for (size_t m = 0; m < stage.receptors.size(); ++m) {
        const float scale =
            stage.receptors[m].lux_per_walk() / static_cast<float>(stage.walks.per_meter);
        parallel_blocks(
            stage.walks.per_meter, kMeterWalksPerBlock, [&](int64_t first, int64_t last) {
                if (!watch.next_block()) return;
                WalkCounts counts;
                std::vector<Spectrum> by_fixture(fixtures, Spectrum(0.0F));
                for (int64_t i = first; i < last; ++i) {
                    trace_meter_walk(
                        stage, static_cast<int>(m), static_cast<int>(i), by_fixture, counts);
                }
                for (size_t f = 0; f < fixtures; ++f) {
                    if (by_fixture[f].is_black()) continue;
                    film.add(static_cast<int>(m), static_cast<int>(f), by_fixture[f] * scale);
                }
                total.add(counts);
            });
    }
}

}  // namespace dapple
