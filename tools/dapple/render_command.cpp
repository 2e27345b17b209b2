// dapple render SET: the frame, its linear EXR and its statistics.
#include <cmath>
#include <iostream>

#include "base/parallel.h"
#include "commands.h"
#include "fingerprint.h"
#include "glare/make_glare.h"
#include "interrupt.h"
#include "judge/judge_film.h"
#include "load_set.h"
#include "make_run_report.h"
#include "option_checks.h"
#include "output/folder_lock.h"
#include "output/in_frame_text.h"
#include "output/judge_text.h"
#include "output/round_layers.h"
#include "output/write_exr.h"
#include "output/write_png.h"
#include "output/write_stats.h"
#include "progress_line.h"
#include "render/in_frame/find_in_frame.h"
#include "render/packing/find_lamp_places.h"
#include "render/read_meters.h"
#include "render_files.h"
#include "render_with_progress.h"
#include "result_owner.h"
#include "set/toml_text.h"
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
    bool keeps_floats = false;
    bool resume = false;
    bool strict = false;
};

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

RunReport report_of(const RenderArguments& arguments,
                    const Rendered& rendered,
                    const CleanFrame& clean) {
    const RenderResult& result = rendered.result;
    const int passes = result.first_pass_share < 1 ? 0 : result.film.passes();
    RunReport report = make_run_report(arguments.options, arguments.transport, passes, result);
    report.set = absolute_set(arguments.set);
    report.first_pass_share = result.first_pass_share;
    report.draft_width = rendered.draft_width;
    // The estimate takes the pixels' camera walks as independent; those of filled pixels are not.
    if (result.first_pass_share == 1) report.clean_noise_percent = typical_error_percent(clean);
    return report;
}

// The picture is written first.
void write_rendered(const RenderArguments& arguments,
                    const RenderFiles& files,
                    const PictureFile& picture,
                    const LoadedSet& set,
                    LensGlare& lens_glare,
                    const Rendered& rendered) {
    const Scene& scene = set.scene;
    const RenderResult& result = rendered.result;
    const CleanFrame clean = clean_frame_of(result, scene, true);
    const GlareFrame glare = lens_glare.of(result.film, &clean);
    picture.write(result, clean, scene.camera, glare);
    const InFrame in_frame = find_in_frame(scene, set.world);
    write_png(files.mask, mask_picture(in_frame));
    FilmRecord record = make_film_record({.scene = scene,
                                          .film = result.film,
                                          .first_hits = result.first_hits,
                                          .meters = &result.meters,
                                          .seen = &result.seen,
                                          .clean = &clean,
                                          .glare = &glare,
                                          .in_frame = &in_frame,
                                          .run = report_of(arguments, rendered, clean),
                                          .lamp_places = find_lamp_places(scene, set.world)});
    if (!arguments.keeps_floats) note_bright_layers(round_layers(record));
    write_exr(files.exr, record);
    const FilmStatistics statistics = judge_film(record);
    write_stats(files.stats, statistics, record);
    if (arguments.csv) write_luminance_csv(files.csv, record);
    if (arguments.json) {
        std::cout << stats_json_text(statistics, record) << '\n';
    } else {
        std::cout << files.png << '\n'
                  << files.exr << '\n'
                  << files.stats << '\n'
                  << files.mask << "\n\n"
                  << judge_text(statistics, record);
    }
}

// Renders, writes the results and prints their names. Throws StoppedWork if there is nothing to
// show.
int render_and_write(const RenderArguments& arguments, const RenderFiles& files, LoadedSet& set) {
    RenderOptions options = arguments.options;
    const ThreadLimit threads(options.threads);
    const uint64_t fingerprint =
        fingerprint_of(read_toml_text(arguments.set), arguments.set, set.scene, options);
    if (arguments.resume) options.resume_from = read_kept_passes(files.passes, fingerprint);
    if (options.resume_from) {
        std::cerr << "continuing after pass " << options.resume_from->frame.passes.count() << " of "
                  << files.passes << '\n';
    }
    std::cerr << "results: " << files.png << ", .exr, .stats.json, .mask.png"
              << (arguments.csv ? ", .luminance.csv" : "") << '\n';
    const PictureFile picture{files.png, arguments.raw};
    PassKeeper keep_passes;
    if (arguments.resume) {
        keep_passes = [&](const RenderResult& so_far) {
            write_kept_passes(files.passes, so_far, fingerprint);
        };
    }
    LensGlare lens_glare(set.scene, set.world);
    const Rendered rendered = render_with_progress(set, options, picture, lens_glare, keep_passes);
    const RenderResult& result = rendered.result;
    print_unfinished(rendered, set.scene);
    {
        ProgressLine line;
        line.show_step("writing the results");
        write_rendered(arguments, files, picture, set, lens_glare, rendered);
        const bool has_passes = rendered.draft_width == 0 && result.first_pass_share == 1;
        if (has_passes && (arguments.resume || result.stopped_early)) {
            write_kept_passes(files.passes, result, fingerprint);
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
    if (!set || stops_at_doubts(*set, arguments.strict)) return kBadInput;
    const RenderFiles files(arguments.folder, set_stem(arguments.set));
    check_writable(arguments.folder, files);
    check_same_set(files.stats, absolute_set(arguments.set));
    const FolderLock lock(arguments.folder);
    watch_for_interrupt();
    try {
        return render_and_write(arguments, files, *set);
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
        ->check(CLI::Range(0.0, 8.0).description(""));
    command.add_flag("--resume",
                     arguments.resume,
                     "Keep the passes, and continue those kept before (also after Ctrl-C)");
    command.add_flag("--json", arguments.json, "Print the statistics as JSON");
    add_float_option(command, arguments.keeps_floats);
    add_strict_option(command, arguments.strict);
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
