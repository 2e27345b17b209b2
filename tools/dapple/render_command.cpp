// dapple render SET: the frame, its linear EXR and its statistics.
#include <filesystem>
#include <fstream>
#include <iostream>

#include "commands.h"
#include "develop/judge.h"
#include "film/checkpoint.h"
#include "fingerprint.h"
#include "interrupt.h"
#include "load_set.h"
#include "make_report.h"
#include "option_checks.h"
#include "output/safe_file.h"
#include "output/write_exr.h"
#include "output/write_png.h"
#include "output/write_stats.h"
#include "progress_line.h"
#include "render/read_meters.h"
#include "render/render_frame.h"
#include "scene/camera_and_measures/scale_frame.h"

namespace dapple {

namespace {

struct RenderCommand {
    std::string set;
    std::string folder = ".";
    RenderOptions render;
    int width = 0;
    std::string transport = "full";
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

// Tried before hours of work, not after: whether every result can be written where it belongs.
void check_writable(const std::string& folder, const Outputs& outputs) {
    check_writable_folder(folder);
    for (const std::string* path :
         {&outputs.exr, &outputs.png, &outputs.stats, &outputs.csv, &outputs.passes}) {
        const SafeFile trial(*path);  // gone again, and what stands there is untouched
    }
}

void write_picture(const Film& film, const Camera& camera, const std::string& path) {
    write_png(path, develop_display(develop_linear(film, camera)));
}

// A picture within the first moments: one pass of a frame of half the size.
void show_first_sight(LoadedSet& set, const RenderOptions& options, const std::string& path) {
    constexpr int kSmallFrame = 250'000;  // px; the first pass of such a frame is there as soon
    const Camera camera = set.scene.camera;
    const std::vector<Region> regions = set.scene.regions;
    const std::vector<Meter> meters = set.scene.meters;
    if (camera.width * camera.height <= kSmallFrame) return;
    scale_frame(set.scene, camera.width / 2);
    set.scene.regions.clear();
    set.scene.meters.clear();
    RenderOptions one_pass = options;
    one_pass.passes = 1;
    one_pass.seconds = one_pass.noise_percent = 0;
    const RenderResult result = render_frame(set.scene, set.world, one_pass);
    write_picture(result.film, set.scene.camera, path);
    set.scene.camera = camera;
    set.scene.regions = regions;
    set.scene.meters = meters;
}

// A picture after the first pass, then at growing intervals.
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

// The passes of an earlier run of the very same set and options, if they were kept.
std::optional<Checkpoint> kept_passes(const std::string& path, uint64_t fingerprint) {
    std::ifstream file(path, std::ios::binary);
    if (!file) return std::nullopt;
    std::optional<Checkpoint> state = read_checkpoint(file, fingerprint);
    if (state) {
        std::cerr << "going on after pass " << state->frame.passes << " of " << path << '\n';
    } else {
        std::cerr << "note: " << path << ": is of another set or other options; starting anew\n";
    }
    return state;
}

void keep_passes(const std::string& path, const RenderResult& result, uint64_t fingerprint) {
    SafeFile file(path);
    int64_t offset = 0;
    const auto write = [&](const void* data, size_t size) {
        file.write_at(data, size, offset);
        offset += static_cast<int64_t>(size);
    };
    write_checkpoint(result.film.state(), result.meters.state(), fingerprint, write);
    file.commit();
}

int render(const RenderCommand& options) {
    Problems problems;
    std::optional<LoadedSet> set = load_set(options.set, options.width, problems);
    print_problems(problems);
    if (!set) return kBadInput;
    const Outputs outputs(options.folder, set_stem(options.set));
    check_writable(options.folder, outputs);
    const Camera& camera = set->scene.camera;

    watch_for_interrupt();
    ProgressLine line;
    PictureSchedule pictures;
    RenderOptions render_options = options.render;
    const uint64_t fingerprint = fingerprint_of(options.set, set->scene, render_options);
    if (options.resume) render_options.go_on_from = kept_passes(outputs.passes, fingerprint);
    if (!render_options.go_on_from) show_first_sight(*set, options.render, outputs.png);
    render_options.on_pass = [&](const Progress& progress, const RenderResult& so_far) {
        if (pictures.due(progress.seconds)) write_picture(so_far.film, camera, outputs.png);
        line.show(progress);
        return !interrupted();
    };
    const RenderResult result = render_frame(set->scene, set->world, render_options);
    line.end();

    const Statistics statistics =
        judge(result.film, all_readings(result.meters), set->scene, result.first_hits);
    const RenderReport report =
        make_report(options.render, options.transport, result.film.passes(), result);
    write_picture(result.film, camera, outputs.png);
    write_exr(outputs.exr, result.film, set->scene, result.first_hits);
    write_stats(outputs.stats, statistics, set->scene, report);
    if (options.resume || result.stopped_early) {
        keep_passes(outputs.passes, result, fingerprint);
    }
    if (options.csv) write_luminance_csv(outputs.csv, result.film);
    if (options.json) {
        std::cout << stats_text(statistics, set->scene, report) << '\n';
    } else {
        std::cout << outputs.png << '\n' << outputs.exr << '\n' << outputs.stats << '\n';
    }
    return result.stopped_early ? kStoppedEarly : kDone;
}

}  // namespace

void add_render_command(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<RenderCommand>();
    CLI::App* command =
        app.add_subcommand("render", "Render a set: a picture, a linear EXR and a statistics file");
    RenderOptions& r = options->render;
    command->add_option("SET", options->set, "The set file")->required();
    command->add_option("-o,--output", options->folder, "Folder for the results");
    command->add_option("--seconds", r.seconds, "Stop after this time")->check(number_above_zero());
    command->add_option("--passes", r.passes, "Stop after this many passes")
        ->check(whole_number(1, 1'000'000'000));
    command->add_option("--noise", r.noise_percent, "Stop when the typical pixel's error is below")
        ->check(number_above_zero());
    command->add_option("--width", options->width, "Frame width in pixels, in place of the set's")
        ->check(whole_number(1, 16384));
    command->add_option("--threads", r.threads, "Threads; all of the machine's when left out")
        ->check(whole_number(1, 1024));
    command->add_option("--seed", r.seed, "Another seed is another grain")
        ->check(whole_number(0, UINT64_MAX));
    command
        ->add_option(
            "--transport",
            options->transport,
            "full, walks (no photons), camera (camera walks alone), or partition (no weights)")
        ->check(CLI::IsMember({"full", "walks", "camera", "partition"}));
    command
        ->add_option("--footprint",
                     r.footprint_px,
                     "Radius in pixels of a light point in the first pass; it shrinks. 0: no blur")
        ->check(CLI::Range(0.0, 8.0));
    command->add_flag("--resume",
                      options->resume,
                      "Keep the passes, and go on from those kept before (also after Ctrl-C)");
    command->add_flag("--json", options->json, "Print the statistics as JSON");
    command->add_flag("--csv", options->csv, "Also write every pixel's luminance as CSV");
    command->callback([options, &exit_code] {
        RenderOptions& render_options = options->render;
        render_options.transport = transport_named(options->transport);
        if (render_options.passes == 0 && render_options.seconds == 0 &&
            render_options.noise_percent == 0) {
            render_options.seconds = 60;
        }
        exit_code = render(*options);
    });
}

}  // namespace dapple
