#include "render/render_frame.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/parallel.h"
#include "geometry/world.h"
#include "render/frame_plan.h"
#include "render/read_meters.h"
#include "render/trace_pass.h"

namespace dapple {

namespace {

// Before this many passes their spread says too little: of two it is a third too small.
constexpr int kPassesToKnowNoise = 8;

// Median over pixels of the standard error over the mean, in per cent: a few thousand pixels of
// a fixed lattice stand for all (E58). 0 where all is dark.
std::optional<double> typical_noise_percent(const Film& film) {
    if (film.passes() < kPassesToKnowNoise) return std::nullopt;
    std::vector<double> noise;
    const int step = std::max(1, film.pixels() / 4096);
    for (int i = step / 2; i < film.pixels(); i += step) {
        const double mean = film.resolve(i).y;
        if (mean > 0) noise.push_back(film.luminance_stderr(i) / mean);
    }
    if (noise.empty()) return 0.0;
    const auto middle = noise.begin() + static_cast<std::ptrdiff_t>(noise.size() / 2);
    std::nth_element(noise.begin(), middle, noise.end());
    return 100 * *middle;
}

void go_on(const RenderOptions& options, RenderResult& result) {
    if (!options.go_on_from) return;
    if (!result.film.restore(options.go_on_from->frame) ||
        !result.meters.restore(options.go_on_from->meters)) {
        throw std::invalid_argument("the film to go on from is of another frame");
    }
}

void count_pass(const RenderOptions& options,
                const Clock& clock,
                const TotalCounts& total,
                RenderResult& result) {
    Progress& progress = result.progress;
    progress.passes = result.film.passes();
    ++progress.passes_now;
    progress.seconds = clock.seconds();
    progress.rays_per_second = static_cast<double>(total.rays) / progress.seconds;
    progress.noise_percent = typical_noise_percent(result.film);
    progress.seconds_left = foretell_seconds_left(options, progress);
}

// Light walks, their photons in order, camera walks, meter walks.
void trace_pass(PassPlan& pass,
                const std::vector<uint8_t>& pixel_walks,
                FilmSink& sink,
                TotalCounts& total,
                RenderResult& result) {
    Stage& stage = pass.stage;
    const float radius = pass.merge_radius;
    Clock clock;
    double begun = 0;
    uint64_t rays = total.rays;
    const auto take = [&](uint64_t& rays_of_part, double& seconds_of_part) {
        const double now = clock.seconds();
        seconds_of_part += now - begun;
        begun = now;
        rays_of_part += total.rays - rays;
        rays = total.rays;
    };
    Effort& effort = result.effort;
    uint64_t none = 0;
    std::vector<PhotonList> photons;
    trace_light_walks(stage, sink, radius > 0 ? &photons : nullptr, total);
    take(effort.light_rays, effort.light_s);
    const PhotonMap map(std::move(photons), radius);
    stage.photons = radius > 0 ? &map : nullptr;
    take(none, effort.photon_map_s);
    effort.photon_bytes = std::max(effort.photon_bytes, map.bytes());
    trace_camera_walks(stage, pixel_walks, sink, total);
    take(effort.camera_rays, effort.camera_s);
    trace_meter_walks(stage, result.meters, total);
    take(effort.meter_rays, effort.meter_s);
    result.film.end_pass();
    result.meters.end_pass();
    take(none, effort.film_s);
}

}  // namespace

RenderResult render_frame(const Scene& scene, const World& world, const RenderOptions& options) {
    const ThreadLimit threads(options.threads);
    FramePlan frame(scene, world, options);
    const Setup& setup = frame.setup;
    // 2^37 white luminances fit beside rounding far below a deep shadow (E57).
    Film film(scene.camera.width,
              scene.camera.height,
              setup.groups.groups,
              sum_quantum(scene.camera, 26));
    RenderResult result{
        std::move(film), make_meter_film(setup), std::move(frame.first_hits), {}, {}};
    result.film.set_regions(find_region_pixels(scene, result.first_hits));
    go_on(options, result);
    result.progress.passes = result.film.passes();
    result.progress.noise_percent = typical_noise_percent(result.film);
    FilmSink sink(result.film, result.meters, setup.groups, result.first_hits, setup.lens);
    TotalCounts total;
    const Clock clock;
    while (!reached_a_limit(options, result.progress)) {
        PassPlan pass(frame, static_cast<uint32_t>(result.film.passes()));
        sink.set_footprint(pass.footprints);
        result.film.begin_pass(pass.wavelengths);
        result.meters.begin_pass(pass.wavelengths);
        trace_pass(pass, frame.pixel_walks, sink, total, result);
        count_pass(options, clock, total, result);
        if (options.on_pass && !options.on_pass(result.progress, result)) {
            result.stopped_early = true;
            break;
        }
    }
    result.rays = total.rays;
    result.nonfinite_samples =
        total.nonfinite + result.film.nonfinite_samples() + result.meters.nonfinite_samples();
    return result;
}

}  // namespace dapple
