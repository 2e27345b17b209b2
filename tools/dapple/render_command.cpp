// dapple render SET: the frame, its linear EXR and its statistics.
#include <filesystem>
#include <fstream>
#include <iostream>

#include "base/parallel.h"
#include "clean/clean_film.h"
#include "commands.h"
#include "develop/exposure.h"
#include "develop/judge_film.h"
#include "film/checkpoint.h"
#include "fingerprint.h"
#include "interrupt.h"
#include "load_set.h"
#include "make_run_report.h"
#include "option_checks.h"
#include "output/safe_file.h"
#include "output/write_exr.h"
#include "output/write_png.h"
#include "output/write_stats.h"
#include "progress_line.h"
#include "render/read_meters.h"
#include "render/render_frame.h"
#include "scene/camera_and_measures/scale_frame.h"
#include "shared_options.h"

namespace dapple {

namespace {

struct RenderArguments {
    std::string set;
    std::string folder = ".";
    RenderOptions options;
    int width = 0;
    std::string transport = "full";
    bool raw = false;
    bool json = false;
    bool csv = false;
    bool resume = false;
};

// Where the results of one set go.
struct Outputs {
    std::string exr, png, stats, csv, passes;

    Outputs(const std::string& folder, const std::string& stem) {
        const std::filesystem::path base = std::filesystem::path(folder) / stem;
        exr = base.string() + ".exr";
        png = base.string() + ".png";
        stats = base.string() + ".stats.json";
        csv = base.string() + ".luminance.csv";
        passes = base.string() + ".passes";
    }
};

// Throws if any result could not be written. Called before hours of work, not after.
void check_writable(const std::string& folder, const Outputs& outputs) {
    check_writable_folder(folder);
    for (const std::string* path :
         {&outputs.exr, &outputs.png, &outputs.stats, &outputs.csv, &outputs.passes}) {
        const SafeFile trial(*path);  // removed again; an older file stays as it is
    }
}

// The picture of a set: the clean frame, or with --raw the film as measured.
struct PictureFile {
    std::string path;
    bool raw = false;

    void write(const RenderResult& result, const CleanFrame& clean, const Camera& camera) const {
        write_png(path,
                  develop_display(raw ? develop_linear(result.film, camera)
                                      : develop_linear(clean, camera)));
    }
};

CleanFrame clean_frame_of(const RenderResult& result, const LoadedSet& set) {
    return clean_film(result.film, result.seen, white_luminance(set.scene.camera));
}

// Writes a picture within the first moments: one pass of a frame of half the size.
void write_first_picture(LoadedSet& set, const RenderOptions& options, const PictureFile& picture) {
    constexpr int kSmallFrame = 250'000;  // px; the first pass of such a frame is as quick
    const Camera camera = set.scene.camera;
    const std::vector<Region> regions = set.scene.regions;
    const std::vector<Meter> meters = set.scene.meters;
    if (camera.width * camera.height <= kSmallFrame) return;
    scale_frame(set.scene, camera.width / 2);
    set.scene.regions.clear();
    set.scene.meters.clear();
    RenderOptions one_pass = options;
    one_pass.passes = 1;
    one_pass.seconds = one_pass.noise_percent = one_pass.clean_noise_percent = 0;
    const RenderResult result = render_frame(set.scene, set.world, one_pass);
    picture.write(result, clean_frame_of(result, set), set.scene.camera);
    set.scene.camera = camera;
    set.scene.regions = regions;
    set.scene.meters = meters;
}

// When to write a picture: after the first pass, then at growing intervals.
class PictureSchedule {
  public:
    bool due(double seconds) {
        if (seconds < next_) return false;
        next_ = seconds + std::clamp(seconds, 2.0, 15.0);
        return true;
    }

  private:
    double next_ = 0;
};

// The passes of an earlier run of the same set and options, if they were kept.
std::optional<Checkpoint> read_kept_passes(const std::string& path, uint64_t fingerprint) {
    std::ifstream file(path, std::ios::binary);
    if (!file) return std::nullopt;
    std::optional<Checkpoint> state = read_checkpoint(file, fingerprint);
    if (state) {
        std::cerr << "continuing after pass " << state->frame.passes << " of " << path << '\n';
    } else {
        std::cerr << "note: " << path << ": is of another set or other options; starting anew\n";
    }
    return state;
}

void write_kept_passes(const std::string& path, const RenderResult& result, uint64_t fingerprint) {
    SafeFile file(path);
    int64_t offset = 0;
    const auto write = [&](const void* data, size_t size) {
        file.write_at(data, size, offset);
        offset += static_cast<int64_t>(size);
    };
    write_checkpoint(result.film.state(), result.meters.state(), fingerprint, write);
    file.commit();
}

RenderResult render_with_progress(LoadedSet& set,
                                  RenderOptions options,
                                  const PictureFile& picture) {
    if (!options.resume_from) write_first_picture(set, options, picture);
    const Camera& camera = set.scene.camera;
    ProgressLine line;
    PictureSchedule pictures;
    std::optional<double> clean_noise;  // of the last picture
    options.on_pass = [&](const Progress& progress, const RenderResult& so_far) {
        if (pictures.due(progress.seconds)) {
            const CleanFrame clean = clean_frame_of(so_far, set);
            clean_noise = typical_error_percent(clean);
            picture.write(so_far, clean, camera);
        }
        Progress shown = progress;
        if (!shown.clean_noise_percent) shown.clean_noise_percent = clean_noise;
        line.show(shown);
        return !interrupted();
    };
    RenderResult result = render_frame(set.scene, set.world, options);
    line.end();
    return result;
}

void write_results(const Outputs& outputs,
                   const Scene& scene,
                   const RenderResult& result,
                   const CleanFrame& clean,
                   const FilmStatistics& statistics,
                   const RunReport& report) {
    write_exr(outputs.exr, result.film, scene, result.first_hits, &clean);
    write_stats(outputs.stats, statistics, scene, report);
}

int run_render(const RenderArguments& arguments) {
    Problems problems;
    std::optional<LoadedSet> set = load_set(arguments.set, arguments.width, problems);
    print_problems(problems);
    if (!set) return kBadInput;
    const Outputs outputs(arguments.folder, set_stem(arguments.set));
    check_writable(arguments.folder, outputs);
    watch_for_interrupt();

    RenderOptions options = arguments.options;
    const uint64_t fingerprint = fingerprint_of(arguments.set, set->scene, options);
    if (arguments.resume) options.resume_from = read_kept_passes(outputs.passes, fingerprint);
    const PictureFile picture{outputs.png, arguments.raw};
    const RenderResult result = render_with_progress(*set, options, picture);

    const FilmStatistics statistics =
        judge_film(result.film, all_readings(result.meters), set->scene, result.first_hits);
    const ThreadLimit threads(options.threads);
    const CleanFrame clean = clean_frame_of(result, *set);
    RunReport report =
        make_run_report(arguments.options, arguments.transport, result.film.passes(), result);
    report.clean_noise_percent = typical_error_percent(clean);
    picture.write(result, clean, set->scene.camera);
    write_results(outputs, set->scene, result, clean, statistics, report);
    if (arguments.resume || result.stopped_early) {
        write_kept_passes(outputs.passes, result, fingerprint);
    }
    if (arguments.csv) write_luminance_csv(outputs.csv, result.film);
    if (arguments.json) {
        std::cout << stats_json_text(statistics, set->scene, report) << '\n';
    } else {
        std::cout << outputs.png << '\n' << outputs.exr << '\n' << outputs.stats << '\n';
    }
    return result.stopped_early ? kStoppedEarly : kDone;
}

void add_options(CLI::App& command, RenderArguments& arguments) {
    RenderOptions& options = arguments.options;
    add_set_option(command, arguments.set);
    command.add_option("-o,--output", arguments.folder, "Folder for the results");
    add_limit_options(command, options.seconds, options.passes);
    command
        .add_option("--noise",
                    options.noise_percent,
                    "Stop when the typical pixel's error is below this, in per cent")
        ->check(number_above_zero());
    command
        .add_option("--clean-noise",
                    options.clean_noise_percent,
                    "Stop when the clean frame's estimated error is below this, in per cent")
        ->check(number_above_zero());
    command.add_flag("--raw", arguments.raw, "The picture shows the film as measured, not cleaned");
    command.add_option("--width", arguments.width, "Frame width in pixels, in place of the set's")
        ->check(whole_number(1, 16384));
    add_threads_option(command, options.threads);
    add_seed_option(command, options.seed, "Another seed gives other noise");
    add_transport_option(
        command,
        arguments.transport,
        "full, walks (no photons), camera (camera walks alone), or partition (no weights)");
    command
        .add_option("--footprint",
                    options.footprint_px,
                    "Radius in pixels of a light point in the first pass; it shrinks. 0: no blur")
        ->check(CLI::Range(0.0, 8.0));
    command.add_flag("--resume",
                     arguments.resume,
                     "Keep the passes, and continue those kept before (also after Ctrl-C)");
    command.add_flag("--json", arguments.json, "Print the statistics as JSON");
    command.add_flag("--csv", arguments.csv, "Also write every pixel's luminance as CSV");
}

}  // namespace

void add_render_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<RenderArguments>();
    CLI::App* command =
        app.add_subcommand("render", "Render a set: a picture, a linear EXR and a statistics file");
    add_options(*command, *arguments);
    command->callback([arguments, &exit_code] {
        RenderOptions& options = arguments->options;
        options.transport = transport_named(arguments->transport);
        const bool has_limit = options.passes > 0 || options.seconds > 0 ||
                               options.noise_percent > 0 || options.clean_noise_percent > 0;
        if (!has_limit) options.seconds = 60;
        exit_code = run_render(*arguments);
    });
}

}  // namespace dapple
