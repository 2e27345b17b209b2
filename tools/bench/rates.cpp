#include "rates.h"

#include <algorithm>
#include <thread>

#include "base/parallel.h"
#include "compare.h"
#include "render/pass_limits.h"

namespace dapple {

namespace {

constexpr int kSettled = 4;  // passes; after them footprints have shrunk from their first size
constexpr int kTimed = 2;    // passes that are timed together

struct Recorded {
    RayLog log;
    size_t light_rays = 0;  // the first rays of the log; the others are of camera and meter walks
};

// Records the rays of the pass after the first `kSettled`, on one thread.
Recorded record_pass(const Scene& scene, World& world, RenderOptions options) {
    Recorded recorded;
    uint64_t light_rays = 0;
    options.threads = 1;
    options.passes = kSettled + 1;
    options.seconds = 0;
    options.on_pass = [&](const Progress& progress, const RenderResult& result) {
        if (progress.passes_now == kSettled) {
            light_rays = result.effort.light_rays;
            world.record(&recorded.log);
        }
        return true;
    };
    const RenderResult result = render_frame(scene, world, options);
    world.record(nullptr);
    recorded.light_rays = static_cast<size_t>(result.effort.light_rays - light_rays);
    return recorded;
}

double replay_seconds(const World& world, const RayLog& log, int threads) {
    const ThreadLimit limit(threads);
    const Clock clock;
    parallel_blocks(static_cast<int64_t>(log.rays.size()), 4096, [&](int64_t first, int64_t last) {
        Hit hit;
        for (auto i = static_cast<size_t>(first); i < static_cast<size_t>(last); ++i) {
            if (log.is_shadow[i]) {
                world.blocked(log.rays[i]);
            } else {
                world.closest(log.rays[i], hit);
            }
        }
    });
    return clock.seconds();
}

uint64_t shadows(const RayLog& log, size_t first, size_t last) {
    return static_cast<uint64_t>(std::count(log.is_shadow.begin() + static_cast<int64_t>(first),
                                            log.is_shadow.begin() + static_cast<int64_t>(last),
                                            true));
}

void count_rays(const Recorded& recorded, Rates& rates) {
    const size_t all = recorded.log.rays.size();
    rates.light_joins = shadows(recorded.log, 0, recorded.light_rays);
    rates.light_steps = recorded.light_rays - rates.light_joins;
    rates.camera_joins = shadows(recorded.log, recorded.light_rays, all);
    rates.camera_steps = all - recorded.light_rays - rates.camera_joins;
}

// Times `kTimed` passes after the first `kSettled`, and sets the shares of the stages.
double seconds_per_pass(const Scene& scene,
                        const World& world,
                        RenderOptions options,
                        Rates& rates) {
    Effort before;
    double begun = 0;
    options.passes = kSettled + kTimed;
    options.seconds = 0;
    options.on_pass = [&](const Progress& progress, const RenderResult& result) {
        if (progress.passes_now == kSettled) {
            begun = progress.seconds;
            before = result.effort;
        }
        return true;
    };
    const RenderResult result = render_frame(scene, world, options);
    const double seconds = result.progress.seconds - begun;
    const Effort& after = result.effort;
    rates.photon_bytes = after.photon_bytes;
    rates.film_bytes_per_group = result.film.bytes_per_group();
    rates.light = (after.light_s - before.light_s) / seconds;
    rates.photon_map = (after.photon_map_s - before.photon_map_s) / seconds;
    rates.camera = (after.camera_s - before.camera_s) / seconds;
    rates.meters = (after.meter_s - before.meter_s) / seconds;
    rates.film = (after.film_s - before.film_s) / seconds;
    return seconds / kTimed;
}

PartShares shares_of(const Parts& parts, const std::vector<PartTimes>& times, double pass_s) {
    PartShares shares;
    for (const auto part : {&PartTimes::splats,
                            &PartTimes::splats_alone,
                            &PartTimes::footprints,
                            &PartTimes::points,
                            &PartTimes::gathering}) {
        std::vector<double> seconds;
        for (const PartTimes& t : times) seconds.push_back(t.*part);
        shares.of_time.*part = median(seconds) / pass_s;
    }
    shares.splat_count = parts.splats();
    return shares;
}

}  // namespace

Rates measure_rates(const Scene& scene, World& world, const RenderOptions& options, int repeats) {
    const Recorded recorded = record_pass(scene, world, options);
    Rates rates;
    rates.threads = options.threads > 0 ? options.threads
                                        : static_cast<int>(std::thread::hardware_concurrency());
    count_rays(recorded, rates);
    std::optional<Parts> parts;
    std::vector<PartTimes> part_times;
    if (rates.threads == 1 && recorded.light_rays > 0) {
        parts.emplace(scene, world, options, kSettled);
    }
    std::vector<double> pass_s;
    std::vector<double> raw_s;
    for (int i = 0; i < repeats; ++i) {
        pass_s.push_back(seconds_per_pass(scene, world, options, rates));
        raw_s.push_back(replay_seconds(world, recorded.log, options.threads));
        if (parts) part_times.push_back(parts->time());
    }
    const auto rays = static_cast<double>(recorded.log.rays.size());
    rates.passes_per_s = 1 / median(pass_s);
    rates.rays_per_s = rays / median(pass_s);
    rates.raw_rays_per_s = rays / median(raw_s);
    if (parts) rates.parts = shares_of(*parts, part_times, median(pass_s));
    return rates;
}

}  // namespace dapple
