#include "render/render_frame.h"

#include <atomic>
#include <chrono>
#include <cmath>
#include <stdexcept>

#include "base/parallel.h"
#include "fixtures/emitter.h"
#include "geometry/world.h"
#include "materials/bsdf.h"
#include "render/film_sink.h"
#include "render/first_look.h"
#include "render/walk_budget.h"
#include "transport/camera_walk.h"
#include "transport/light_walk.h"

namespace dapple {

namespace {

constexpr int64_t kPixelsPerBlock = 256;
constexpr int64_t kLightWalksPerBlock = 512;

// Film sums count in 2^-26 of the white luminance, rounded down to a power of two: 2^37 white
// luminances fit beside rounding far below a deep shadow (E57).
double film_quantum(const Camera& camera) {
    const double white = 250.0 / kPi * static_cast<double>(camera.f_number) * camera.f_number /
                         (static_cast<double>(camera.shutter) * camera.iso);
    return std::exp2(std::floor(std::log2(white)) - 26);
}

struct TotalCounts {
    std::atomic<uint64_t> rays = 0;
    std::atomic<uint64_t> nonfinite = 0;

    void add(const WalkCounts& counts) {
        rays += counts.rays;
        nonfinite += counts.nonfinite;
    }
};

void trace_light_walks(const Stage& stage, FilmSink& sink, TotalCounts& total) {
    for (size_t f = 0; f < stage.emitters.size(); ++f) {
        parallel_blocks(
            stage.light_walks[f], kLightWalksPerBlock, [&](int64_t first, int64_t last) {
                WalkCounts counts;
                for (int64_t i = first; i < last; ++i) {
                    trace_light_walk(stage, static_cast<int>(f), static_cast<int>(i), sink, counts);
                }
                total.add(counts);
            });
    }
}

void trace_camera_walks(const Stage& stage, FilmSink& sink, TotalCounts& total) {
    const int width = stage.scene.camera.width;
    const int64_t pixels = static_cast<int64_t>(width) * stage.scene.camera.height;
    parallel_blocks(pixels, kPixelsPerBlock, [&](int64_t first, int64_t last) {
        WalkCounts counts;
        std::vector<Spectrum> by_fixture(stage.emitters.size());
        for (auto pixel = static_cast<int>(first); pixel < static_cast<int>(last); ++pixel) {
            trace_camera_walk(stage, pixel % width, pixel / width, by_fixture, counts);
            for (size_t f = 0; f < by_fixture.size(); ++f) {
                if (by_fixture[f].is_black()) continue;  // what is not finite is counted there
                const PixelShare whole{pixel, 1.0F};
                sink.add(std::span(&whole, 1), static_cast<int>(f), by_fixture[f]);
                by_fixture[f] = Spectrum(0.0F);
            }
        }
        total.add(counts);
    });
}

// Radius of a splat, px. Its area falls with the square root of the passes, so that noise and blur
// both go (Knaus and Zwicker 2011: a schedule by pass number alone) (E53).
float footprint_of_pass(double first_px, uint32_t pass) {
    return static_cast<float>(first_px * std::pow(1.0 + pass, -0.25));
}

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

class Clock {
  public:
    double seconds() const {
        return std::chrono::duration<double>(std::chrono::steady_clock::now() - start_).count();
    }

  private:
    std::chrono::steady_clock::time_point start_ = std::chrono::steady_clock::now();
};

// Time left until the first of the limits, as the passes so far foretell.
double foretell_seconds_left(const RenderOptions& options, const Progress& p) {
    double left = kInfinity;
    const double per_pass = p.seconds / p.passes_now;
    if (options.passes > 0) left = std::min(left, (options.passes - p.passes) * per_pass);
    if (options.seconds > 0) left = std::min(left, options.seconds - p.seconds);
    if (options.noise_percent > 0 && p.noise_percent) {
        const double needed = p.passes * std::pow(*p.noise_percent / options.noise_percent, 2);
        left = std::min(left, (needed - p.passes) * per_pass);
    }
    return std::isfinite(left) ? std::max(0.0, left) : -1;
}

bool reached_a_limit(const RenderOptions& options, const Progress& p) {
    if (options.passes > 0 && p.passes >= options.passes) return true;
    if (p.passes_now == 0) return false;
    if (options.passes <= 0 && options.seconds <= 0 && options.noise_percent <= 0) return true;
    // A pass that would end well past the limit is not begun.
    if (options.seconds > 0 && p.seconds + 0.5 * p.seconds / p.passes_now >= options.seconds) {
        return true;
    }
    return options.noise_percent > 0 && p.noise_percent &&
           *p.noise_percent <= options.noise_percent;
}

}  // namespace

RenderResult render_frame(const Scene& scene, const World& world, const RenderOptions& options) {
    const ThreadLimit threads(options.threads);
    const Lens lens(scene.camera);
    const SceneMaterials scene_materials(scene);
    const FixtureGroups groups = make_fixture_groups(scene);
    const std::vector<Emitter> emitters(scene.fixtures.begin(), scene.fixtures.end());
    Film film(scene.camera.width, scene.camera.height, groups.groups, film_quantum(scene.camera));
    const double walks_asked =
        options.transport == Transport::kWalks ? options.light_walks_per_pixel * film.pixels() : 0;
    const std::vector<int> light_walks =
        walks_asked > 0 ? make_walk_budget(emitters, world, static_cast<int64_t>(walks_asked))
                        : std::vector<int>(emitters.size(), 0);

    RenderResult result{std::move(film), look_first(scene, world, lens), {}};
    result.film.set_regions(find_region_pixels(scene, result.first_hits));
    if (options.go_on_from && !result.film.restore(*options.go_on_from)) {
        throw std::invalid_argument("the film to go on from is of another frame");
    }
    result.progress.passes = result.film.passes();
    result.progress.noise_percent = typical_noise_percent(result.film);
    FilmSink sink(result.film, groups, result.first_hits, lens);
    const StartMedia start = find_start_media(scene, world);
    TotalCounts total;
    const Clock clock;
    while (!reached_a_limit(options, result.progress)) {
        const auto pass = static_cast<uint32_t>(result.film.passes());
        const Wavelengths wavelengths = make_pass_wavelengths(options.seed, pass);
        const PassMaterials materials(scene_materials, wavelengths);
        const Stage stage{scene,
                          world,
                          lens,
                          emitters,
                          light_walks,
                          materials,
                          options.seed,
                          pass,
                          options.max_bounces,
                          start};
        result.film.begin_pass(wavelengths);
        sink.set_footprint(footprint_of_pass(options.footprint_px, pass));
        trace_light_walks(stage, sink, total);
        trace_camera_walks(stage, sink, total);
        result.film.end_pass();

        result.progress.passes = result.film.passes();
        ++result.progress.passes_now;
        result.progress.seconds = clock.seconds();
        result.progress.rays_per_second = static_cast<double>(total.rays) / result.progress.seconds;
        result.progress.noise_percent = typical_noise_percent(result.film);
        result.progress.seconds_left = foretell_seconds_left(options, result.progress);
        if (options.on_pass && !options.on_pass(result.progress, result.film)) {
            result.stopped_early = true;
            break;
        }
    }
    result.rays = total.rays;
    result.nonfinite_samples = total.nonfinite + result.film.nonfinite_samples();
    return result;
}

}  // namespace dapple
