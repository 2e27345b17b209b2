// dapple_bench: the error of the transports in one region of a set, after the same time: with
// photons and footprints as `dapple render` uses them (full), light walks not aimed at glass
// (unaimed), without photons (walks), without footprints too (points), camera walks alone (camera).
// compare.h says how error is measured; README.md has the table.
#include <CLI/CLI.hpp>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <exception>
#include <iostream>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <thread>

#include "compare.h"
#include "load_set.h"
#include "render/render_frame.h"

namespace dapple {

namespace {

constexpr uint64_t kReferenceSeeds[] = {1001, 1002};  // the runs in question have 1, 2, 3, …

struct Options {
    std::string set = "scenes/jar-and-wall/jar-and-wall.toml";
    std::string region = "broken beam";
    std::vector<double> seconds = {2, 5, 10};
    double reference_seconds = 120;
    int repeats = 5;
    int width = 0;
    bool json = false;
};

// A set, the region looked at, and where the table goes.
struct Bench {
    const LoadedSet& set;
    size_t region = 0;
    std::FILE* table = stdout;
};

struct Run {
    std::vector<double> luminance;  // of the region's pixels, cd/m²
    int passes = 0;
    double seconds = 0;
    double cpu_seconds = 0;  // of all threads; far below threads × seconds: others took their share
    double rays_per_second = 0;
};

size_t find_region(const Scene& scene, const std::string& name) {
    for (size_t i = 0; i < scene.regions.size(); ++i) {
        if (scene.regions[i].name == name) return i;
    }
    throw std::invalid_argument("the set has no region \"" + name + '"');
}

Run run(const Bench& bench, const RenderOptions& options) {
    const std::clock_t begin = std::clock();
    const RenderResult result = render_frame(bench.set.scene, bench.set.world, options);
    const std::clock_t end = std::clock();
    Run out;
    for (const int32_t pixel : result.film.regions()[bench.region].pixels) {
        out.luminance.push_back(result.film.resolve(pixel).y);
    }
    if (out.luminance.empty()) throw std::invalid_argument("the region has no pixels");
    out.passes = result.film.passes();
    out.seconds = result.progress.seconds;
    out.cpu_seconds = static_cast<double>(end - begin) / CLOCKS_PER_SEC;
    out.rays_per_second = result.progress.rays_per_second;
    return out;
}

double load_average() {
    double load = 0;
    return getloadavg(&load, 1) == 1 ? load : -1;
}

nlohmann::json report_references(const Bench& bench, const References& references) {
    const ReferenceQuality q = judge_references(references);
    std::fprintf(bench.table,
                 "%u threads, load %.1f, %s\n"
                 "reference: %zu pixels, mean %.4g cd/m², mean square %.4g, MSE of one %.3g, "
                 "means differ by %.2g %%\n\n"
                 "transport     s  cpu s  load passes Mrays/s        MSE     relMSE  energy\n",
                 std::thread::hardware_concurrency(),
                 load_average(),
                 World::backend(),
                 references.a.size(),
                 q.mean,
                 q.mean_square,
                 q.mse_of_one,
                 100 * q.mean_difference);
    return {{"pixels", references.a.size()},
            {"mean", q.mean},
            {"mean_square", q.mean_square},
            {"mse_of_one", q.mse_of_one},
            {"mean_difference", q.mean_difference}};
}

nlohmann::json report_run(const Bench& bench, const char* name, const Run& r, const Distance& d) {
    std::fprintf(bench.table,
                 "%-8s %6.1f %6.1f %5.1f %6d %7.2f %10.4g %10.4g %7.4f\n",
                 name,
                 r.seconds,
                 r.cpu_seconds,
                 load_average(),
                 r.passes,
                 r.rays_per_second / 1e6,
                 d.mse,
                 d.rel_mse,
                 d.energy);
    return {{"transport", name},
            {"seconds", r.seconds},
            {"cpu_seconds", r.cpu_seconds},
            {"load", load_average()},
            {"passes", r.passes},
            {"rays_per_second", r.rays_per_second},
            {"mse", d.mse},
            {"rel_mse", d.rel_mse},
            {"energy", d.energy}};
}

// References are free of the footprint that blurs the splats of young films: T's blur is error too.
Run run_reference(const Bench& bench, double seconds, uint64_t seed) {
    RenderOptions options;
    options.seconds = seconds;
    options.seed = seed;
    options.footprint_px = 0;
    options.merge_radius_px = 0.5;
    return run(bench, options);
}

struct Mode {
    const char* name;
    Transport transport;
    bool footprints;
    bool aimed;
};
constexpr Mode kModes[] = {{"full", Transport::kFull, true, true},
                           {"unaimed", Transport::kFull, true, false},
                           {"walks", Transport::kWalks, true, true},
                           {"points", Transport::kWalks, false, true},
                           {"camera", Transport::kCamera, false, true}};

// All runs of one time. The modes take turns, so that other load on the machine meets all of them.
// A render ends with a whole pass; the others are given the time that the first really took.
nlohmann::json compare_modes(const Bench& bench,
                             const References& references,
                             double seconds,
                             int repeats) {
    nlohmann::json runs = nlohmann::json::array();
    std::vector<std::vector<double>> errors(std::size(kModes));
    for (int i = 1; i <= repeats; ++i) {
        double time = seconds;
        for (size_t m = 0; m < std::size(kModes); ++m) {
            RenderOptions options;
            options.seed = static_cast<uint64_t>(i);
            options.seconds = time;
            options.transport = kModes[m].transport;
            options.aims_light_walks = kModes[m].aimed;
            if (!kModes[m].footprints) options.footprint_px = 0;
            const Run r = run(bench, options);
            if (m == 0) time = r.seconds;
            const Distance distance = compare(r.luminance, references);
            errors[m].push_back(distance.rel_mse);
            runs.push_back(report_run(bench, kModes[m].name, r, distance));
        }
    }
    nlohmann::json ratios;
    std::fprintf(bench.table, "%g s: relMSE over that of full:", seconds);
    for (size_t m = 1; m < std::size(kModes); ++m) {
        const double ratio = median(errors[m]) / median(errors[0]);
        ratios[kModes[m].name] = ratio;
        std::fprintf(bench.table, " %s %.3g", kModes[m].name, ratio);
    }
    std::fprintf(bench.table, "\n\n");
    std::fflush(bench.table);
    return {{"seconds", seconds}, {"runs", runs}, {"rel_mse_over_full", ratios}};
}

int run_bench(const Options& options) {
    Problems problems;
    const std::optional<LoadedSet> set = load_set(options.set, options.width, problems);
    print_problems(problems);
    if (!set) return 2;
    const Bench bench{
        *set, find_region(set->scene, options.region), options.json ? stderr : stdout};
    const double seconds = options.reference_seconds;
    References references;
    references.a = run_reference(bench, seconds, kReferenceSeeds[0]).luminance;
    references.b = run_reference(bench, seconds, kReferenceSeeds[1]).luminance;
    nlohmann::json report = {{"set", options.set},
                             {"region", options.region},
                             {"frame_px", {set->scene.camera.width, set->scene.camera.height}},
                             {"threads", std::thread::hardware_concurrency()},
                             {"reference", report_references(bench, references)},
                             {"times", nlohmann::json::array()}};
    for (const double time : options.seconds) {
        report["times"].push_back(compare_modes(bench, references, time, options.repeats));
    }
    if (options.json) std::cout << report.dump(2) << '\n';
    return 0;
}

}  // namespace

}  // namespace dapple

int main(int argc, char** argv) {
    dapple::Options options;
    CLI::App app{"Error of the transports in one region after the same time."};
    app.add_option("--set", options.set, "The set file");
    app.add_option("--region", options.region, "One of the set's regions");
    app.add_option("--seconds", options.seconds, "Times to compare at")->check(CLI::PositiveNumber);
    app.add_option("--reference-seconds", options.reference_seconds, "For each of two references")
        ->check(CLI::PositiveNumber);
    app.add_option("--repeats", options.repeats, "Runs of each transport at each time, by seed")
        ->check(CLI::PositiveNumber);
    app.add_option("--width", options.width, "Frame width in pixels, in place of the set's")
        ->check(CLI::Range(1, 16384));
    app.add_flag("--json", options.json, "JSON on standard output, the table on standard error");
    CLI11_PARSE(app, argc, argv);
    try {
        return dapple::run_bench(options);
    } catch (const std::exception& error) {
        std::cerr << "dapple_bench: " << error.what() << '\n';
        return 2;
    }
}
