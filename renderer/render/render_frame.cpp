#include "render/render_frame.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "base/parallel.h"
#include "geometry/world.h"
#include "render/find_merge_cells.h"
#include "render/first_look.h"
#include "render/pixel_walks.h"
#include "render/read_meters.h"
#include "render/schedule.h"
#include "render/setup.h"
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

// The meters of a frame: a pass spends little on them, and they see some of its light walks.
constexpr int kMeterWalks = 1024;
constexpr int kLightWalksPerJoined = 8;

// The light walks of each fixture in a usual pass.
std::vector<int> plan_walks(const RenderOptions& options, const Setup& setup) {
    if (options.transport == Transport::kCamera) return light_walks_of_pass(setup, 0, 0);
    const Camera& camera = setup.scene.camera;
    const double pixels = static_cast<double>(camera.width) * camera.height;
    const double per_pixel =
        options.light_walks_per_pixel > 0
            ? options.light_walks_per_pixel
            : std::min(2.0, 0.25 * (1.0 + static_cast<double>(setup.emitters.size())));
    // A pass without glass shall cost little more than its camera walks.
    return light_walks_of_pass(setup, per_pixel * pixels, 0.05);
}

void share_out_walks(const std::vector<int>& usual, uint32_t pass, Setup& setup) {
    for (size_t f = 0; f < usual.size(); ++f) {
        setup.light_walks[f] = light_walks_in_pass(usual[f], pass);
        setup.joined_to_meters[f] =
            (setup.light_walks[f] + kLightWalksPerJoined - 1) / kLightWalksPerJoined;
    }
}

// Whether light can leave a surface of this material in a mirror direction or smoothly refracted.
// Without any such, no photon is ever wanted.
bool may_be_smooth(const Material& material) {
    const bool smooth = square(material.roughness) < kSmoothAlpha;
    switch (material.kind) {
        case MaterialKind::kGlass:
        case MaterialKind::kThinGlass:
        case MaterialKind::kConductor:
        case MaterialKind::kCoated:
            return smooth;
        default:
            return false;
    }
}

// Of the pixels that see a surface, their width there, m; 0 where none does.
float median_pixel_m(const FirstHits& first_hits) {
    std::vector<float> sizes;
    for (const float size : first_hits.footprint_m) {
        if (size > 0) sizes.push_back(size);
    }
    if (sizes.empty()) return 0;
    const auto middle = sizes.begin() + static_cast<std::ptrdiff_t>(sizes.size() / 2);
    std::nth_element(sizes.begin(), middle, sizes.end());
    return *middle;
}

// 0 where there is nothing to merge.
float first_merge_radius(const RenderOptions& options, const Setup& setup, float pixel_m) {
    const std::vector<Material>& materials = setup.scene.materials;
    const bool merges =
        options.transport == Transport::kFull || options.transport == Transport::kPartition;
    if (!merges || setup.emitters.empty() ||
        std::none_of(materials.begin(), materials.end(), may_be_smooth)) {
        return 0;
    }
    return static_cast<float>(options.merge_radius_px) * pixel_m;
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

void set_schedule(const RenderOptions& options,
                  const Wavelengths& wavelengths,
                  uint32_t pass,
                  float pixel_m,
                  Stage& stage) {
    stage.footprint_overlap = footprint_overlap(options.footprint_px, pass);
    stage.dispersion_limit = dispersion_limit(options.footprint_px, pass);
    // What is scattered on from there spreads far wider; a photon is seen where it lies.
    stage.dispersion_limit_m = 10.0F * stage.dispersion_limit * pixel_m;
    stage.photon_dispersion_limit_m = 0.25F * stage.dispersion_limit * pixel_m;
    stage.soft_splat_weight = soft_splat_weight(options.footprint_px, pass);
    for (int j = 0; j < kSpectrumSize; ++j) {
        stage.wavelength_coordinate[j] = 1e6F / square(wavelengths.nm[j]);
    }
}

// Light walks, their photons in order, camera walks, meter walks.
void trace_pass(Stage& stage,
                float radius,
                const std::vector<uint8_t>& pixel_walks,
                FilmSink& sink,
                TotalCounts& total,
                RenderResult& result) {
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
    const PhotonMap map = make_photon_map(std::move(photons), radius);
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
    Setup setup(scene, world, options.aims_light_walks);
    setup.max_bounces = options.max_bounces;
    setup.partition = options.transport == Transport::kPartition;
    setup.meter_walks = kMeterWalks;
    const std::vector<int> light_walks = plan_walks(options, setup);
    // 2^37 white luminances fit beside rounding far below a deep shadow (E57).
    Film film(scene.camera.width,
              scene.camera.height,
              setup.groups.groups,
              sum_quantum(scene.camera, 26));
    RenderResult result{
        std::move(film), make_meter_film(setup), look_first(scene, world, setup.lens), {}, {}};
    result.film.set_regions(find_region_pixels(scene, result.first_hits));
    go_on(options, result);
    result.progress.passes = result.film.passes();
    result.progress.noise_percent = typical_noise_percent(result.film);
    FilmSink sink(result.film, result.meters, setup.groups, result.first_hits, setup.lens);
    const std::vector<uint8_t> pixel_walks = count_pixel_walks(scene, result.first_hits);
    const float pixel_m = median_pixel_m(result.first_hits);
    const float first_radius = first_merge_radius(options, setup, pixel_m);
    MergeCells merge_cells;
    if (first_radius > 0) merge_cells = find_merge_cells(setup, result.first_hits, first_radius);
    TotalCounts total;
    const Clock clock;
    while (!reached_a_limit(options, result.progress)) {
        const auto pass = static_cast<uint32_t>(result.film.passes());
        const Wavelengths wavelengths = make_pass_wavelengths(options.seed, pass);
        const PassMaterials materials(setup.materials, wavelengths);
        share_out_walks(light_walks, pass, setup);
        Stage stage = setup.stage(materials, options.seed, pass);
        set_schedule(options, wavelengths, pass, pixel_m, stage);
        const float radius = first_radius * shrink_of_pass(pass);
        if (radius > 0) stage.merge_area = kPiF * square(radius);
        stage.merge_cells = &merge_cells;
        sink.set_footprint(footprint_radii(options.footprint_px, pass));
        result.film.begin_pass(wavelengths);
        result.meters.begin_pass(wavelengths);
        trace_pass(stage, radius, pixel_walks, sink, total, result);
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
