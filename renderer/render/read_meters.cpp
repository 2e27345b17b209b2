#include "render/read_meters.h"

#include <algorithm>

#include "base/parallel.h"
#include "geometry/world.h"
#include "render/meter_sink.h"
#include "render/setup.h"
#include "render/trace_pass.h"

namespace dapple {

namespace {

// Before this many passes their spread does not say yet how sure the readings are.
constexpr int kPassesToKnowReadings = 16;

// Walks that are not joined find only what falls on a receptor through glass.
void plan_walks(const MeterOptions& options, Setup& setup) {
    if (options.transport == Transport::kCamera) return;
    constexpr double kShareWithoutGlass = 0.125;
    const auto budget = [&](double per_meter_walk) {
        return light_walks_of_pass(setup, per_meter_walk * options.meter_walks, kShareWithoutGlass);
    };
    setup.joined_to_meters = budget(options.joined_per_meter_walk);
    setup.light_walks = setup.joined_to_meters;
    const bool all_points = std::all_of(setup.receptors.begin(),
                                        setup.receptors.end(),
                                        [](const Receptor& r) { return r.is_point(); });
    if (setup.world.broken_beam_bounds().empty() || all_points) return;
    setup.light_walks = budget(options.light_walks_per_meter_walk);
}

void count_pass(const MeterOptions& options,
                const Clock& clock,
                const TotalCounts& total,
                const MeterFilm& film,
                Progress& progress) {
    progress.passes = film.passes();
    ++progress.passes_now;
    progress.seconds = clock.seconds();
    progress.rays_per_second = static_cast<double>(total.rays) / progress.seconds;
    if (film.passes() >= kPassesToKnowReadings) progress.noise_percent = film.worst_noise_percent();
    progress.seconds_left = foretell_seconds_left(options, progress);
}

}  // namespace

// Light walks bring many small parts to a reading: it counts in 2^-40 of white (E57), and holds
// 2^23 whites.
MeterFilm make_meter_film(const Setup& setup) {
    return {static_cast<int>(setup.receptors.size()),
            static_cast<int>(setup.emitters.size()),
            setup.groups.groups,
            sum_quantum(setup.scene.camera, 40)};
}

std::vector<Reading> all_readings(const MeterFilm& film) {
    std::vector<Reading> readings;
    for (int m = 0; m < film.meters(); ++m) readings.push_back(film.reading(m));
    return readings;
}

MeterResult read_meters(const Scene& scene, const World& world, const MeterOptions& options) {
    MeterResult result;
    if (scene.meters.empty()) return result;
    const ThreadLimit threads(options.threads);
    Setup setup(scene, world);
    setup.makes_frame = false;
    setup.partition = options.transport == Transport::kPartition;
    setup.max_bounces = options.max_bounces;
    setup.meter_walks = options.meter_walks;
    plan_walks(options, setup);
    MeterFilm film = make_meter_film(setup);
    MeterSink sink(film);
    TotalCounts total;
    const Clock clock;
    while (!reached_a_limit(options, result.progress)) {
        const auto pass = static_cast<uint32_t>(film.passes());
        const Wavelengths wavelengths = make_pass_wavelengths(options.seed, pass);
        const PassMaterials materials(setup.materials, wavelengths);
        const Stage stage = setup.stage(materials, options.seed, pass);
        film.begin_pass(wavelengths);
        trace_light_walks(stage, sink, nullptr, total);
        trace_meter_walks(stage, film, total);
        film.end_pass();
        count_pass(options, clock, total, film, result.progress);
        if (options.on_pass && !options.on_pass(result.progress, film)) {
            result.stopped_early = true;
            break;
        }
    }
    result.readings = all_readings(film);
    result.rays = total.rays;
    result.nonfinite_samples = total.nonfinite + film.nonfinite_samples();
    return result;
}

}  // namespace dapple
