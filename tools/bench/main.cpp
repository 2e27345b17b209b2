// dapple_bench: the engine's speed on a set, and the error of its pictures after the same time, by
// transport and region. README.md beside this file has the tables and how they were made.
#include <CLI/CLI.hpp>
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <iostream>
#include <nlohmann/json.hpp>
#include <thread>

#include "errors.h"
#include "frame_steps.h"
#include "haze_cost.h"
#include "report_errors.h"
#include "report_rates.h"
#include "set_table.h"
#include "stop_gaps.h"

namespace dapple {

namespace {

struct Options {
    std::string set = "scenes/bench/bottle-room.toml";
    std::vector<double> seconds = {1, 3, 10};
    std::vector<std::string> modes = {"full", "walks", "points", "camera"};
    double reference_seconds = 60;
    int repeats = 1;
    int width = 0;
    bool rates = true;
    bool errors = true;
    bool json = false;
    bool steps = false;
    bool haze = false;
    bool stops = false;
    double visibility_m = 0;
    int passes = 10;
    std::string table;  // folder of sets; empty: one set is measured in depth
};

nlohmann::json bench_rates(const Options& options, LoadedSet& set, std::FILE* to) {
    nlohmann::json by_threads = nlohmann::json::array();
    std::vector<double> passes;
    for (const int threads : {1, 2}) {
        RenderOptions render;
        render.threads = threads;
        const Rates rates = measure_rates(set.scene, set.world, render, options.repeats + 2);
        print_rates(to, rates);
        passes.push_back(rates.passes_per_s);
        by_threads.push_back(to_json(rates));
    }
    RenderOptions camera;
    camera.transport = Transport::kCamera;
    camera.threads = 2;
    const Rates alone = measure_rates(set.scene, set.world, camera, options.repeats + 2);
    const double speedup = passes[1] / passes[0];
    const double camera_pass = passes[1] / alone.passes_per_s;
    std::fprintf(to,
                 "1 to 2 threads: %.2f times the passes; a pass of camera walks alone takes %.2f "
                 "of a pass\n\n",
                 speedup,
                 camera_pass);
    std::fflush(to);
    return {{"by_threads", by_threads},
            {"passes_on_2_threads_over_1", speedup},
            {"camera_pass_over_pass", camera_pass}};
}

nlohmann::json picture_json(const PictureError& error) {
    return {{"rel_mse", error.rel_mse},
            {"wrong_share", error.wrong_share},
            {"specks_per_million", error.specks_per_million}};
}

nlohmann::json table_json(const std::vector<SetRow>& rows) {
    nlohmann::json table = nlohmann::json::array();
    for (const SetRow& row : rows) {
        table.push_back({{"set", row.set},
                         {"fixtures", row.fixtures},
                         {"passes", row.passes},
                         {"seconds", row.seconds},
                         {"rays_per_second", row.rays_per_second},
                         {"film", picture_json(row.film)},
                         {"clean", picture_json(row.clean)},
                         {"reference_wrong_share", row.reference_wrong_share}});
    }
    return table;
}

std::vector<Mode> picked_modes(const Options& options) {
    std::vector<Mode> modes;
    for (const Mode& mode : all_modes()) {
        if (std::find(options.modes.begin(), options.modes.end(), mode.name) !=
            options.modes.end()) {
            modes.push_back(mode);
        }
    }
    return modes;
}

// The modes take turns, so that other load on the machine affects all of them. A render ends with a
// whole pass; the other modes are given the time that the first one took.
nlohmann::json bench_errors(const Options& options, const LoadedSet& set, std::FILE* to) {
    const std::vector<References> references = make_references(set, options.reference_seconds);
    print_references(to, set.scene, references);
    nlohmann::json runs = nlohmann::json::array();
    const std::vector<Mode> modes = picked_modes(options);
    for (const double seconds : options.seconds) {
        for (int i = 1; i <= options.repeats; ++i) {
            double time = 0;
            for (const Mode& mode : modes) {
                const double limit = time > 0 ? time : seconds;
                const Run run = run_mode(set, mode, limit, static_cast<uint64_t>(i));
                if (!(time > 0)) time = run.seconds;
                const std::vector<RegionError> errors = judge_run(set, run, references);
                print_run(to, mode, run, errors);
                runs.push_back(run_json(mode, run, errors));
            }
        }
    }
    return {{"references", references_json(set.scene, references)}, {"runs", runs}};
}

// Errors are by region. A set without regions gets one, the whole frame.
void ensure_region(Scene& scene) {
    if (!scene.regions.empty()) return;
    Region frame;
    frame.name = "frame";
    frame.has_rect = true;
    frame.rect = {0, 0, scene.camera.width, scene.camera.height};
    scene.regions.push_back(frame);
}

std::vector<std::string> mode_names() {
    std::vector<std::string> names;
    for (const Mode& mode : all_modes()) names.push_back(mode.name);
    return names;
}

// From the set's text to a picture of one pass, step by step.
int run_steps(const Options& options) {
    const int width = options.width > 0 ? options.width : 160;
    std::printf("%s, %d px across, load %.1f\n", options.set.c_str(), width, load_average());
    std::printf("%-28s %10s %10s\n", "step", "ms", "cpu ms");
    for (const StepTime& step : time_frame_steps(options.set, width, options.repeats + 2)) {
        std::printf(
            "%-28s %10.1f %10.1f\n", step.step.c_str(), 1e3 * step.seconds, 1e3 * step.cpu_seconds);
    }
    return 0;
}

// How long each step of a frame on the desk goes on after it was told to stop.
int run_stops(const Options& options) {
    const int width = options.width > 0 ? options.width : 960;
    std::printf("%s, %d px across, load %.1f\n", options.set.c_str(), width, load_average());
    std::printf("%-30s %10s %10s %8s\n", "step", "longest ms", "cpu ms", "looks");
    for (const StopGap& gap : find_stop_gaps(options.set, width)) {
        std::printf("%-30s %10.1f %10.0f %8d\n",
                    gap.step.c_str(),
                    1e3 * gap.longest_s,
                    1e3 * gap.all_s,
                    gap.looks);
    }
    return 0;
}

int run_haze(const Options& options) {
    const HazeCost cost = measure_haze_cost({.set = options.set,
                                             .width = options.width > 0 ? options.width : 240,
                                             .passes = options.passes,
                                             .seeds = options.repeats + 1,
                                             .visibility_m = options.visibility_m});
    std::printf("%s, %d x %d px, %d passes, %d seeds, load %.1f\n",
                options.set.c_str(),
                cost.width,
                cost.height,
                options.passes,
                options.repeats + 1,
                load_average());
    std::printf("%-6s %14s %16s %18s %12s\n",
                "air",
                "cpu s a pass",
                "median variance",
                "trimmed variance",
                "mean cd/m2");
    for (const auto& [air, of] : {std::pair{"clear", cost.clear}, {"haze", cost.hazy}}) {
        std::printf("%-6s %14.3f %16.4f %18.4f %12.4f\n",
                    air,
                    of.cpu_seconds,
                    of.median_variance,
                    of.trimmed_variance,
                    of.luminance);
    }
    std::printf(
        "time for the same noise over that in clear air: median of pixels %.2f ± %.2f, "
        "trimmed mean %.2f ± %.2f\n",
        cost.median,
        cost.median_se,
        cost.trimmed,
        cost.trimmed_se);
    return 0;
}

// Every set of the folder and the demo, at the first of the times.
int run_table(const Options& options) {
    SetTableOptions table;
    table.sets = set_files_in(options.table);
    table.sets.push_back("scenes/boathouse/boathouse.toml");
    table.seconds = options.seconds.front();
    table.reference_seconds = options.reference_seconds;
    if (options.width > 0) table.width = options.width;
    std::vector<SetRow> rows;
    const bool all_read = make_set_table(table, options.json ? stderr : stdout, rows);
    if (options.json) std::cout << table_json(rows).dump(2) << '\n';
    return all_read ? 0 : 2;
}

int run_bench(const Options& options) {
    Problems problems;
    std::optional<LoadedSet> set = load_set(options.set, options.width, problems);
    print_problems(problems);
    if (!set) return 2;
    ensure_region(set->scene);
    std::FILE* to = options.json ? stderr : stdout;
    std::fprintf(to,
                 "%s, %d x %d, %u threads, load %.1f, %s\n\n",
                 options.set.c_str(),
                 set->scene.camera.width,
                 set->scene.camera.height,
                 std::thread::hardware_concurrency(),
                 load_average(),
                 World::backend());
    nlohmann::json report = {{"set", options.set},
                             {"frame_px", {set->scene.camera.width, set->scene.camera.height}},
                             {"threads", std::thread::hardware_concurrency()}};
    if (options.rates) report["rates"] = bench_rates(options, *set, to);
    if (options.errors) report["errors"] = bench_errors(options, *set, to);
    if (options.json) std::cout << report.dump(2) << '\n';
    return 0;
}

}  // namespace

}  // namespace dapple

int main(int argc, char** argv) {
    dapple::Options options;
    CLI::App app{"Speed on a set, and the error of the transports after the same time."};
    app.add_option("--set", options.set, "The set file");
    app.add_option("--seconds", options.seconds, "Times to compare at")->check(CLI::PositiveNumber);
    app.add_option("--modes", options.modes, "Transports to compare")
        ->check(CLI::IsMember(dapple::mode_names()));
    app.add_option("--reference-seconds", options.reference_seconds, "For each of two references")
        ->check(CLI::PositiveNumber);
    app.add_option("--repeats", options.repeats, "Runs of each transport at each time, by seed")
        ->check(CLI::PositiveNumber);
    app.add_option("--width", options.width, "Frame width in pixels, in place of the set's")
        ->check(CLI::Range(1, 16384));
    app.add_flag("!--no-rates", options.rates, "Leave out the speeds");
    app.add_flag("!--no-errors", options.errors, "Leave out the errors");
    app.add_option("--table", options.table, "One row for every set of this folder, and the demo")
        ->check(CLI::ExistingDirectory);
    app.add_flag("--steps", options.steps, "Only the steps from the set's text to a first picture");
    app.add_flag("--haze", options.haze, "Only what the set's haze costs: time for the same noise");
    app.add_flag("--stops", options.stops, "Only how long work on the desk takes to stop");
    app.add_option("--visibility", options.visibility_m, "With --haze: of haze in the set, m")
        ->check(CLI::Range(1.0, 1e5));
    app.add_option("--passes", options.passes, "With --haze: of each render")
        ->check(CLI::Range(3, 10000));
    app.add_flag("--json", options.json, "JSON on standard output, the table on standard error");
    CLI11_PARSE(app, argc, argv);
    try {
        if (options.steps) return dapple::run_steps(options);
        if (options.stops) return dapple::run_stops(options);
        if (options.haze) return dapple::run_haze(options);
        return options.table.empty() ? dapple::run_bench(options) : dapple::run_table(options);
    } catch (const std::exception& error) {
        std::cerr << "dapple_bench: " << error.what() << '\n';
        return 2;
    }
}
