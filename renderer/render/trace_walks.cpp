#include "render/trace_walks.h"

#include <array>

#include "base/parallel.h"
#include "render/schedule.h"
#include "render/walk_order.h"
#include "transport/camera_walk.h"
#include "transport/meter_walk.h"

namespace dapple {

namespace {

constexpr int64_t kPixelsPerBlock = 256;
constexpr int64_t kLightWalksPerBlock = 512;
constexpr int64_t kMeterWalksPerBlock = 128;

}  // namespace

size_t KeptVertices::add_blocks(size_t blocks) {
    const size_t first = blocks_;
    blocks_ += blocks;
    if (photons) photons->resize(blocks_);
    if (stored) stored->resize(blocks_);
    return first;
}

void trace_light_walks(const Stage& stage,
                       LightSink& sink,
                       KeptVertices* kept,
                       TotalCounts& total) {
    for (size_t f = 0; f < stage.emitters.size(); ++f) {
        const int64_t walks = stage.walks.light[f];
        const auto fixture = static_cast<int>(f);
        const SobolOwen4d starts = light_walk_starts(stage, fixture);
        const std::vector<int> order = order_by_direction(starts, stage.walks.light[f]);
        const auto blocks =
            static_cast<size_t>((walks + kLightWalksPerBlock - 1) / kLightWalksPerBlock);
        const size_t first_list = kept ? kept->add_blocks(blocks) : 0;
        parallel_blocks(walks, kLightWalksPerBlock, [&](int64_t first, int64_t last) {
            const size_t block = first_list + static_cast<size_t>(first / kLightWalksPerBlock);
            PhotonList* const photons = kept && kept->photons ? &(*kept->photons)[block] : nullptr;
            if (photons) photons->reserve(kLightWalksPerBlock);
            StoredVertexList* const stored =
                kept && kept->stored ? &(*kept->stored)[block] : nullptr;
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
                    stage, {fixture, index}, starts, {walk_sink, photons, stored}, counts);
            }
            total.add(counts);
        });
    }
}

void trace_camera_walks(const Stage& stage,
                        const std::vector<uint8_t>& walks,
                        FilmSink& sink,
                        TotalCounts& total) {
    const int width = stage.scene.camera.width;
    const int64_t pixels = static_cast<int64_t>(width) * stage.scene.camera.height;
    parallel_blocks(pixels, kPixelsPerBlock, [&](int64_t first, int64_t last) {
        WalkCounts counts;
        std::vector<Spectrum> by_fixture(stage.emitters.size());
        for (auto pixel = static_cast<int>(first); pixel < static_cast<int>(last); ++pixel) {
            const WalkNumbers numbers =
                numbers_in_pass(walks[static_cast<size_t>(pixel)], stage.pass);
            for (uint32_t i = 0; i < numbers.count; ++i) {
                const uint32_t number = numbers.first + i;
                trace_camera_walk(stage, pixel % width, pixel / width, number, by_fixture, counts);
            }
            const float scale = 1.0F / static_cast<float>(numbers.count);
            for (size_t f = 0; f < by_fixture.size(); ++f) {
                // A non-finite sum is not black, so the film counts it.
                if (by_fixture[f].is_black()) continue;
                sink.add_pixel(pixel, static_cast<int>(f), by_fixture[f] * scale);
                by_fixture[f] = Spectrum(0.0F);
            }
        }
        total.add(counts);
    });
}

void trace_meter_walks(const Stage& stage, MeterFilm& film, TotalCounts& total) {
    const auto fixtures = stage.emitters.size();
    for (size_t m = 0; m < stage.receptors.size(); ++m) {
        const float scale =
            stage.receptors[m].lux_per_walk() / static_cast<float>(stage.walks.per_meter);
        parallel_blocks(
            stage.walks.per_meter, kMeterWalksPerBlock, [&](int64_t first, int64_t last) {
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
