// dapple render SET: the frame, its linear EXR and its statistics.
#include <cmath>
#include <filesystem>
#include <fstream>
#include <iostream>

#include "commands.h"
#include "develop/judge_film.h"
#include "drafts.h"
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

void write_picture(const Film& film, const Camera& camera, const std::string& path) {
    write_png(path, develop_display(develop_linear(film, camera)));
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

// The result of the frame, or of its last draft.
struct Rendered {
    RenderResult result;
    int draft_width = 0;  // px; 0: of the frame
};

// Renders the frame. `seconds` is the time that its drafts have taken.
RenderResult render_whole_frame(const LoadedSet& set,
                                RenderOptions options,
                                double seconds,
                                const std::string& picture_path,
                                ProgressLine& line) {
    if (interrupted()) throw StoppedWork();
    if (options.seconds > 0) {
        options.seconds -= seconds;
        if (options.seconds <= 0) throw StoppedWork();
    }
    PictureSchedule pictures;
    options.on_pass = [&](const Progress& progress, const RenderResult& so_far) {
        // The last picture is written with the other results.
        const bool is_last = reached_a_limit(options, progress) || interrupted();
        if (!is_last && pictures.due(progress.seconds)) {
            line.show_step("writing " + picture_path);
            write_picture(so_far.film, set.scene.camera, picture_path);
        }
        line.show(progress);
        return !interrupted();
    };
    return render_frame(set.scene, set.world, options);
}

// Throws StoppedWork if there is nothing to show. If the result is that of a draft, the scene is
// left with the draft's size.
Rendered render_with_progress(LoadedSet& set,
                              RenderOptions options,
                              const std::string& picture_path) {
    ProgressLine line;
    options.on_part = [&](const WorkPart& part) {
        line.show(part);
        return !interrupted();
    };
    const Clock clock;
    std::optional<Draft> draft;
    if (!options.resume_from) {
        draft = render_drafts(set, options, line, [&](const RenderResult& result) {
            write_picture(result.film, set.scene.camera, picture_path);
        });
    }
    options.finishes_first_pass = !draft;
    try {
        RenderResult result = render_whole_frame(set, options, clock.seconds(), picture_path, line);
        const bool shows_more = !draft || traced_pixels(result) >= traced_pixels(draft->result);
        if (shows_more) return {std::move(result)};
    } catch (const StoppedWork&) {
        if (!draft) throw;
    }
    scale_frame(set.scene, draft->width);
    draft->result.stopped_early = interrupted();
    return {std::move(draft->result), draft->width};
}

// Says what the results hold if no pass of the frame is finished.
void print_unfinished(const Rendered& rendered, const Scene& scene) {
    if (rendered.draft_width > 0) {
        std::cerr << "note: stopped before the first pass had a picture; the files hold a draft of "
                  << scene.camera.width << " x " << scene.camera.height << " pixels\n";
    } else if (rendered.result.first_pass_share < 1) {
        std::cerr << "note: stopped in the first pass; "
                  << std::lround(100 * rendered.result.first_pass_share)
                  << " % of the pixels are traced, the others show their nearest neighbour\n";
    }
}

void write_results(const Outputs& outputs,
                   const Scene& scene,
                   const RenderResult& result,
                   const FilmStatistics& statistics,
                   const RunReport& report) {
    write_picture(result.film, scene.camera, outputs.png);
    write_exr(outputs.exr, result.film, scene, result.first_hits);
    write_stats(outputs.stats, statistics, scene, report);
}

// Writes the results and prints their names.
void write_rendered(const RenderArguments& arguments,
                    const Outputs& outputs,
                    const Scene& scene,
                    const Rendered& rendered) {
    const RenderResult& result = rendered.result;
    const FilmStatistics statistics =
        judge_film(result.film, all_readings(result.meters), scene, result.first_hits);
    const int passes = result.first_pass_share < 1 ? 0 : result.film.passes();
    RunReport report = make_run_report(arguments.options, arguments.transport, passes, result);
    report.first_pass_share = result.first_pass_share;
    report.draft_width = rendered.draft_width;
    write_results(outputs, scene, result, statistics, report);
    if (arguments.csv) write_luminance_csv(outputs.csv, result.film);
    if (arguments.json) {
        std::cout << stats_json_text(statistics, scene, report) << '\n';
    } else {
        std::cout << outputs.png << '\n' << outputs.exr << '\n' << outputs.stats << '\n';
    }
}

// Renders and writes the results. Throws StoppedWork if there is nothing to show.
int render_and_write(const RenderArguments& arguments, const Outputs& outputs, LoadedSet& set) {
    RenderOptions options = arguments.options;
    const uint64_t fingerprint = fingerprint_of(arguments.set, set.scene, options);
    if (arguments.resume) options.resume_from = read_kept_passes(outputs.passes, fingerprint);
    const Rendered rendered = render_with_progress(set, options, outputs.png);
    const RenderResult& result = rendered.result;
    print_unfinished(rendered, set.scene);
    {
        ProgressLine line;
        line.show_step("writing the results");
        write_rendered(arguments, outputs, set.scene, rendered);
        const bool has_passes = rendered.draft_width == 0 && result.first_pass_share == 1;
        if (has_passes && (arguments.resume || result.stopped_early)) {
            write_kept_passes(outputs.passes, result, fingerprint);
        }
    }
    return result.stopped_early ? kStoppedEarly : kDone;
}

int run_render(const RenderArguments& arguments) {
    end_at_interrupt();
    Problems problems;
    std::optional<LoadedSet> set;
    {
        ProgressLine line;
        line.show_step("preparing: reading " + arguments.set);
        set = load_set(arguments.set, arguments.width, problems);
    }
    print_problems(problems);
    if (!set) return kBadInput;
    const Outputs outputs(arguments.folder, set_stem(arguments.set));
    check_writable(arguments.folder, outputs);
    watch_for_interrupt();
    try {
        return render_and_write(arguments, outputs, *set);
    } catch (const StoppedWork&) {
        std::cerr << "stopped before there was a picture; no file was written\n";
        return kStoppedEarly;
    }
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
        const bool has_limit =
            options.passes > 0 || options.seconds > 0 || options.noise_percent > 0;
        if (!has_limit) options.seconds = 60;
        exit_code = run_render(*arguments);
    });
}

}  // namespace dapple
