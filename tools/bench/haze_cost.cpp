#include "haze_cost.h"

#include <algorithm>
#include <cmath>
#include <ctime>

#include "base/problems.h"
#include "render/render_frame.h"

namespace dapple {

namespace {

constexpr double kKoschmieder = 3.912;  // extinction times visibility (E49)
constexpr double kDark =
    0.05;  // of the mean luminance, added to each pixel's: dark ones count less
constexpr double kTrimmed = 0.03;

// Of all threads, s.
double cpu_now() {
    return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

AirCost measure(const LoadedSet& set, int passes, int seed) {
    RenderOptions options;
    options.passes = passes;
    options.seed = static_cast<uint64_t>(seed);
    options.reads_meters = false;
    std::vector<double> ends;
    options.on_pass = [&](const Progress&, const RenderResult&) {
        ends.push_back(cpu_now());
        return true;
    };
    const RenderResult result = render_frame(set.scene, set.world, options);
    AirCost cost;
    cost.cpu_seconds = (ends.back() - ends.front()) / static_cast<double>(ends.size() - 1);
    const int pixels = result.film.pixels();
    for (int i = 0; i < pixels; ++i) cost.luminance += result.film.resolve(i).y / pixels;
    std::vector<double> variances;
    for (int i = 0; i < pixels; ++i) {
        const double value = result.film.resolve(i).y + kDark * cost.luminance;
        const double error = result.film.luminance_stderr(i) / value;
        variances.push_back(error * error * passes);
    }
    std::sort(variances.begin(), variances.end());
    cost.median_variance = variances[variances.size() / 2];
    const auto kept = static_cast<size_t>((1 - kTrimmed) * static_cast<double>(variances.size()));
    for (size_t i = 0; i < kept; ++i) {
        cost.trimmed_variance += variances[i] / static_cast<double>(kept);
    }
    return cost;
}

void add_part(const AirCost& of_seed, int seeds, AirCost& mean) {
    mean.cpu_seconds += of_seed.cpu_seconds / seeds;
    mean.median_variance += of_seed.median_variance / seeds;
    mean.trimmed_variance += of_seed.trimmed_variance / seeds;
    mean.luminance += of_seed.luminance / seeds;
}

void set_haze(const HazeCostOptions& options, Scene& scene) {
    if (options.visibility_m > 0) {
        scene.haze.extinction = static_cast<float>(kKoschmieder / options.visibility_m);
    }
    if (!scene.haze.is_there()) {
        throw FileError(options.set, "has no haze; give --visibility");
    }
}

LoadedSet loaded(const HazeCostOptions& options) {
    Problems problems;
    std::optional<LoadedSet> set = load_set(options.set, options.width, problems);
    print_problems(problems);
    if (!set) throw FileError(options.set, "cannot be rendered");
    return std::move(*set);
}

// The mean of the seeds' ratios and its standard error.
void take_ratios(const std::vector<double>& ratios, double& mean, double& error) {
    const auto n = static_cast<double>(ratios.size());
    for (const double ratio : ratios) mean += ratio / n;
    double squares = 0;
    for (const double ratio : ratios) squares += (ratio - mean) * (ratio - mean);
    error = n > 1 ? std::sqrt(squares / (n * (n - 1))) : 0;
}

}  // namespace

HazeCost measure_haze_cost(const HazeCostOptions& options) {
    LoadedSet clear = loaded(options);
    LoadedSet hazy = loaded(options);
    set_haze(options, hazy.scene);
    clear.scene.haze = {};
    HazeCost cost;
    cost.width = hazy.scene.camera.width;
    cost.height = hazy.scene.camera.height;
    std::vector<double> medians;
    std::vector<double> means;
    for (int seed = 1; seed <= options.seeds; ++seed) {
        const AirCost in_clear = measure(clear, options.passes, seed);
        const AirCost in_haze = measure(hazy, options.passes, seed);
        const double time = in_haze.cpu_seconds / in_clear.cpu_seconds;
        medians.push_back(time * in_haze.median_variance / in_clear.median_variance);
        means.push_back(time * in_haze.trimmed_variance / in_clear.trimmed_variance);
        add_part(in_clear, options.seeds, cost.clear);
        add_part(in_haze, options.seeds, cost.hazy);
    }
    take_ratios(medians, cost.median, cost.median_se);
    take_ratios(means, cost.trimmed, cost.trimmed_se);
    return cost;
}

}  // namespace dapple
