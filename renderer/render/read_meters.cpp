#include "render/read_meters.h"

#include <algorithm>
#include <numeric>

#include "base/parallel.h"
#include "geometry/world.h"
#include "render/meter_sink.h"
#include "render/prepare/aim_at_meters.h"
#include "render/prepare/setup.h"
#include "render/run_passes.h"
#include "render/schedule.h"
#include "transport/haze/beam_map.h"

namespace dapple {

namespace {

// With fewer passes, their spread is no reliable measure of the readings' precision.
constexpr int kPassesToKnowReadings = 16;

// Beams in haze: their radius in the first pass, ours, and the light walks that leave some.
constexpr float kFirstBeamRadius = 0.1F;  // m
constexpr int kBeamWalks = 400;

// Whether light may fall on a receptor through glass.
bool light_may_fall(const Setup& setup) {
    const bool all_points = std::all_of(setup.receptors.begin(),
                                        setup.receptors.end(),
                                        [](const Receptor& r) { return r.is_point(); });
    return !setup.world.broken_beam_bounds().empty() && !all_points;
}

// The first light walks of each fixture, which leave beams in haze.
void plan_beams(const Setup& setup, PassWalks& walks) {
    if (!setup.haze || setup.world.broken_beam_bounds().empty()) return;
    const int all = std::max(1, std::accumulate(walks.light.begin(), walks.light.end(), 0));
    for (const int light : walks.light) {
        walks.beams.push_back(std::min(light, (light * kBeamWalks + all - 1) / all));
    }
}

// The number of walks in every pass.
PassWalks plan_walks(const MeterOptions& options, const Setup& setup) {
    PassWalks walks = no_light_walks(setup);
    walks.per_meter = options.meter_walks;
    if (options.transport == Transport::kCamera) return walks;
    constexpr double kShareWithoutGlass = 0.125;
    const auto budget = [&](double per_meter_walk) {
        return light_walks_of_pass(setup, per_meter_walk * options.meter_walks, kShareWithoutGlass);
    };
    walks.joined_to_meters = budget(options.joined_per_meter_walk);
    walks.light = walks.joined_to_meters;
    // Light walks that are not joined to meters find only light that falls on a receptor through
    // glass.
    if (light_may_fall(setup)) walks.light = budget(options.light_walks_per_meter_walk);
    return walks;
}

Setup make_setup(const Scene& scene, const World& world, const MeterOptions& options) {
    Setup setup(scene, world);
    setup.makes_frame = false;
    setup.partition = options.transport == Transport::kPartition;
    setup.max_bounces = options.max_bounces;
    return setup;
}

// The passes of the meters alone.
struct MeterPasses {
    const MeterOptions& options;
    const Setup& setup;
    const PassWalks walks;
    MeterFilm& film;

    int trace(TotalCounts& total, WorkWatch& watch) const {
        const auto pass = static_cast<uint32_t>(film.passes());
        const Wavelengths wavelengths = make_pass_wavelengths(options.seed, pass);
        const PassMaterials materials(setup.materials, wavelengths);
        Stage stage = setup.stage(materials, walks, options.seed, pass);
        MeterSink sink(film);
        film.begin_pass(wavelengths);
        KeptVertices kept;
        if (!walks.beams.empty()) kept.beams.emplace();
        trace_light_walks(stage, sink, &kept, total, watch);
        std::optional<BeamMap> beams;
        if (kept.beams) {
            beams.emplace(*kept.beams, *stage.haze, kFirstBeamRadius * beam_radius_factor(pass));
            stage.beams = stage.wide_beams = &*beams;
        }
        trace_meter_walks(stage, film, total, watch);
        if (watch.stopped()) {
            film.drop_pass();
        } else {
            film.end_pass();
        }
        return film.passes();
    }
};

}  // namespace

// Light walks add many small amounts to a reading. Its unit is therefore 2^-40 of white (E110), and
// it holds up to 2^23 times white.
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
    WorkWatch watch(options.on_part);
    Setup setup = make_setup(scene, world, options);
    PassWalks walks = plan_walks(options, setup);
    const bool any_walks = options.transport != Transport::kCamera;
    if (options.aims_at_meters && any_walks && light_may_fall(setup)) {
        aim_at_meters(setup, walks, watch);
    }
    if (any_walks) plan_beams(setup, walks);
    MeterFilm film = make_meter_film(setup);
    const MeterPasses passes{options, setup, walks, film};
    TotalCounts total;
    PassSteps steps;
    steps.trace = [&] { return passes.trace(total, watch); };
    steps.noise_percent = [&]() -> std::optional<double> {
        if (film.passes() < kPassesToKnowReadings) return std::nullopt;
        return film.worst_noise_percent();
    };
    steps.report = [&] { return !options.on_pass || options.on_pass(result.progress, film); };
    result.stopped_early = run_passes(options, steps, total, watch, result.progress);
    if (film.passes() == 0) throw StoppedWork();
    result.readings = all_readings(film);
    result.rays = total.rays;
    result.nonfinite_samples = total.nonfinite + film.nonfinite_samples();
    return result;
}

}  // namespace dapple
