#include "render/render_frame.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/parallel.h"
#include "clean/clean_film.h"
#include "geometry/world.h"
#include "render/prepare/frame_setup.h"
#include "render/read_meters.h"
#include "render/run_passes.h"

namespace dapple {

namespace {

// With fewer passes, their spread is no reliable measure: the spread of two is a third too small.
constexpr int kPassesToKnowNoise = 8;

// Median over pixels of the standard error over the mean, in per cent, on a fixed lattice of a few
// thousand pixels (E115). 0 if the frame is dark.
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

// The error of the clean frame, estimated anew each time that the passes have grown by a fifth.
class CleanNoise {
  public:
    explicit CleanNoise(double white_luminance) : white_(white_luminance) {}
    std::optional<double> of(const RenderResult& result) {
        const int passes = result.film.passes();
        if (passes >= next_) {
            percent_ = typical_error_percent(clean_film(result.film, result.seen, white_));
            next_ = passes + 1 + passes / 5;
        }
        return percent_;
    }

  private:
    double white_;  // cd/m²
    int next_ = 0;
    std::optional<double> percent_;
};

// Takes the first hits out of the frame's setup.
RenderResult make_result(const Scene& scene, FrameSetup& frame) {
    stop_if_asked();
    // A sum holds up to 2^37 times white, and its rounding is far below a deep shadow (E110).
    Film film(scene.camera.width,
              scene.camera.height,
              frame.setup.groups.groups,
              sum_quantum(scene.camera, 26));
    stop_if_asked();
    film.set_regions(find_region_pixels(scene, frame.first_hits));
    stop_if_asked();
    return {.film = std::move(film),
            .meters = make_meter_film(frame.setup),
            .first_hits = std::move(frame.first_hits),
            .seen = std::move(frame.seen),
            .fine = std::move(frame.fine),
            .pilots = frame.pilots};
}

// Nothing in clear air, and without blur.
std::optional<HazeGlow> make_glow(const FrameSetup& frame, const RenderResult& result) {
    if (!frame.setup.haze || !(frame.footprint_px > 0)) return std::nullopt;
    return std::make_optional<HazeGlow>(
        find_seen_haze(*frame.setup.haze, frame.setup.lens, result.first_hits),
        result.seen,
        static_cast<int>(result.film.groups().size()));
}

void restore_checkpoint(const std::optional<Checkpoint>& checkpoint, RenderResult& result) {
    if (checkpoint &&
        (!result.film.restore(checkpoint->frame) || !result.meters.restore(checkpoint->meters))) {
        throw std::invalid_argument("the film to resume from belongs to another frame");
    }
    result.progress.passes = result.film.passes();
    result.progress.noise_percent = typical_noise_percent(result.film);
}

}  // namespace

RenderResult render_frame(const Scene& scene, const World& world, const RenderOptions& options) {
    const ThreadLimit threads(options.threads);
    WorkWatch watch(options.on_part, options.part_every_s);
    const bool may_stop = options.resume_from || !options.finishes_first_pass;
    if (options.seconds > 0 && may_stop) watch.set_limit(options.seconds);
    FrameSetup frame(scene, world, options, watch);
    watch.start_step(WorkStep::kFilm, 2);
    watch.next_block_or_throw();
    RenderResult result = make_result(scene, frame);
    result.film.set_first_pass(options.first_pass);
    result.meters.set_first_pass(options.first_pass);
    restore_checkpoint(options.resume_from, result);
    watch.next_block_or_throw();
    FilmSink sink(
        result.film, result.meters, frame.setup.groups, result.first_hits, frame.setup.lens);
    std::optional<HazeGlow> glow = make_glow(frame, result);
    sink.set_glow(glow ? &*glow : nullptr);
    TotalCounts total;
    PassSteps steps;
    steps.trace = [&] {
        FramePass pass(frame, static_cast<uint32_t>(result.film.next_pass()));
        const bool is_first = result.film.passes() == 0;
        if (is_first && !options.finishes_first_pass) pass.use_lattice();
        const PassFilms films{result.film, result.meters, sink, glow ? &*glow : nullptr};
        const double share =
            trace_pass(pass, frame.camera_plan, films, total, result.effort, watch);
        if (is_first) result.first_pass_share = share;
        return share < 1 && is_first ? 0 : result.film.passes();
    };
    steps.noise_percent = [&] { return typical_noise_percent(result.film); };
    CleanNoise clean_noise(white_of(scene.camera));
    if (options.clean_noise_percent > 0) {
        steps.clean_noise_percent = [&] { return clean_noise.of(result); };
    }
    steps.report = [&] { return !options.on_pass || options.on_pass(result.progress, result); };
    result.stopped_early = run_passes(options, steps, total, watch, result.progress);
    if (!(result.first_pass_share > 0)) throw StoppedWork();
    result.rays = result.film.rays();
    result.nonfinite_samples = result.film.nonfinite_samples() + result.meters.nonfinite_samples();
    return result;
}

}  // namespace dapple
