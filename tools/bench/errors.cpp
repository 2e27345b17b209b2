#include "errors.h"

#include <cmath>
#include <cstdlib>
#include <ctime>
#include <limits>

#include "clean/clean_film.h"
#include "develop/exposure.h"

namespace dapple {

namespace {

constexpr uint64_t kReferenceSeeds[] = {1001, 1002};  // the runs have 1, 2, 3, …

// NaN after a single pass, or without light.
double relative_se(const Film& film, size_t region) {
    const Film::MeanAndError light = film.region_luminance(region);
    const bool known = film.passes() > 1 && light.mean > 0;
    return known ? light.stderr_of_mean / light.mean : std::numeric_limits<double>::quiet_NaN();
}

Run run(const LoadedSet& set, const RenderOptions& options) {
    const std::clock_t begin = std::clock();
    const RenderResult result = render_frame(set.scene, set.world, options);
    const std::clock_t end = std::clock();
    const CleanFrame clean =
        clean_film(result.film, result.seen, white_luminance(set.scene.camera));
    Run out;
    const std::vector<PixelSet>& regions = result.film.regions();
    for (size_t r = 0; r < regions.size(); ++r) {
        out.luminance.emplace_back();
        out.clean.emplace_back();
        for (const int32_t pixel : regions[r].pixels) {
            out.luminance.back().push_back(result.film.resolve(pixel).y);
            out.clean.back().push_back(clean.total[static_cast<size_t>(pixel)].y);
        }
        out.relative_se.push_back(relative_se(result.film, r));
    }
    out.passes = result.film.passes();
    out.seconds = result.progress.seconds;
    out.cpu_seconds = static_cast<double>(end - begin) / CLOCKS_PER_SEC;
    out.load = load_average();
    out.rays_per_second = result.progress.rays_per_second;
    return out;
}

// References are rendered without footprints, so that the blur of a run's footprints counts as an
// error.
Run run_reference(const LoadedSet& set, double seconds, uint64_t seed) {
    RenderOptions options;
    options.seconds = seconds;
    options.seed = seed;
    options.footprint_px = 0;
    options.merge_radius_px = 0.5;
    return run(set, options);
}

}  // namespace

double load_average() {
    double load = 0;
    return getloadavg(&load, 1) == 1 ? load : -1;
}

const std::vector<Mode>& all_modes() {
    static const std::vector<Mode> modes = {{"full", Transport::kFull, true, true},
                                            {"clean", Transport::kFull, true, true, true},
                                            {"unaimed", Transport::kFull, true, false},
                                            {"walks", Transport::kWalks, true, true},
                                            {"points", Transport::kWalks, false, true},
                                            {"partition", Transport::kPartition, true, true},
                                            {"camera", Transport::kCamera, false, true}};
    return modes;
}

Run run_mode(const LoadedSet& set, const Mode& mode, double seconds, uint64_t seed) {
    RenderOptions options;
    options.seed = seed;
    options.seconds = seconds;
    options.transport = mode.transport;
    options.aims_light_walks = mode.aimed;
    if (!mode.footprints) options.footprint_px = 0;
    Run result = run(set, options);
    if (mode.cleaned) result.luminance = result.clean;
    return result;
}

std::vector<References> make_references(const LoadedSet& set, double seconds) {
    const Run a = run_reference(set, seconds, kReferenceSeeds[0]);
    const Run b = run_reference(set, seconds, kReferenceSeeds[1]);
    std::vector<References> references;
    for (size_t r = 0; r < a.luminance.size(); ++r) {
        const double se = 0.5 * std::hypot(a.relative_se[r], b.relative_se[r]);
        references.push_back({a.luminance[r], b.luminance[r], se});
    }
    return references;
}

std::vector<RegionError> judge_run(const LoadedSet& set,
                                   const Run& run,
                                   const std::vector<References>& references) {
    std::vector<RegionError> errors;
    for (size_t r = 0; r < references.size(); ++r) {
        const Region& region = set.scene.regions[r];
        RegionError error;
        error.region = region.name;
        error.distance = compare(run.luminance[r], references[r]);
        error.energy_se =
            error.distance.energy * std::hypot(run.relative_se[r], references[r].relative_se);
        const Patch patch{region.rect.z - region.rect.x, region.rect.w - region.rect.y};
        const auto area = static_cast<size_t>(patch.width) * static_cast<size_t>(patch.height);
        const bool is_full_rectangle = region.has_rect && area == run.luminance[r].size();
        if (is_full_rectangle && std::isfinite(error.distance.energy)) {
            error.sharpness = judge_sharpness(patch, run.luminance[r], references[r]);
        }
        errors.push_back(error);
    }
    return errors;
}

}  // namespace dapple
