// dapple rebalance FILM.exr: the frame with other dimmers and colours, without rendering.
#include <filesystem>
#include <future>
#include <iomanip>
#include <iostream>

#include "commands.h"
#include "film_path.h"
#include "judge/judge_film.h"
#include "load_set.h"
#include "output/read_exr.h"
#include "output/round_layers.h"
#include "output/write_exr.h"
#include "output/write_png.h"
#include "output/write_stats.h"
#include "rebalance/rebalance.h"
#include "rebalance/settings.h"
#include "render_files.h"
#include "result_owner.h"
#include "shared_options.h"

namespace dapple {

namespace {

struct RebalanceArguments {
    std::string film;
    std::string folder = ".";
    Settings settings;
    bool raw = false;
    bool json = false;
    bool keeps_floats = false;
};

// Says which fixtures' light is not exact, and by how much at most.
void print_approximations(const FilmRecord& film, const std::vector<LayerChange>& changes) {
    struct Errors {
        double luminance = 0, colour = 0;
    };
    std::vector<Errors> errors(film.fixtures.size());
    for (size_t g = 0; g < changes.size(); ++g) {
        if (film.layers[g].fixture < 0) continue;
        Errors& of = errors[static_cast<size_t>(film.layers[g].fixture)];
        of.luminance = std::max(of.luminance, changes[g].relight.luminance_error);
        of.colour = std::max(of.colour, changes[g].relight.colour_error);
    }
    for (size_t f = 0; f < errors.size(); ++f) {
        if (errors[f].colour == 0) continue;
        std::cerr << "note: " << film.fixtures[f].name
                  << ": its new colour is exact on grey and on "
                  << "colours of the set file; on skin and after two reflections it is within "
                  << std::setprecision(2) << 100 * errors[f].luminance << " % in brightness and "
                  << 100 * errors[f].colour << " % in colour\n";
    }
}

void check_not_read(const RebalanceArguments& arguments, const RenderFiles& files) {
    std::error_code error;
    if (std::filesystem::equivalent(arguments.film, files.exr, error)) {
        throw FileError(files.exr, "is the film that is read; give another folder with -o");
    }
}

void write_pictures(const RebalanceArguments& arguments,
                    const RenderFiles& files,
                    const FilmRecord& film) {
    write_png(files.png,
              develop_display({film.width(), film.height(), shown_light(film, arguments.raw)}));
    write_exr(files.exr, film, ExrPacking::kNone);  // packing would take seconds
}

// The pictures are written while the film is judged: either takes a third of a second, and the
// image library uses one thread.
void write_results(const RebalanceArguments& arguments,
                   const RenderFiles& files,
                   const FilmRecord& film) {
    std::future<void> pictures =
        std::async(std::launch::async, [&] { write_pictures(arguments, files, film); });
    const FilmStatistics statistics = judge_film(film);
    pictures.get();
    write_stats(files.stats, statistics, film);
    if (arguments.json) {
        std::cout << stats_json_text(statistics, film) << '\n';
    } else {
        std::cout << files.png << '\n' << files.exr << '\n' << files.stats << '\n';
    }
}

int run_rebalance(RebalanceArguments& arguments) {
    arguments.film = find_film(arguments.film);
    FilmRecord film = read_exr(arguments.film);
    Problems problems;
    const std::vector<Fixture> wanted = apply_settings(film, arguments.settings, problems);
    print_problems(problems);
    if (!problems.empty()) return kBadInput;
    const RenderFiles files(arguments.folder, set_stem(arguments.film));
    check_not_read(arguments, files);
    check_writable(arguments.folder, files);
    check_same_set(files.stats, film.run.set);
    const std::vector<LayerChange> changes = make_layer_changes(film, wanted);
    print_approximations(film, changes);
    FilmRecord other = rebalance(std::move(film), wanted, changes);
    if (!arguments.keeps_floats) note_bright_layers(round_layers(other));
    write_results(arguments, files, other);
    return kDone;
}

}  // namespace

void add_rebalance_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<RebalanceArguments>();
    CLI::App& command =
        *app.add_subcommand("rebalance", "Other dimmers and colours for a film, without rendering");
    command.add_option("FILM", arguments->film, "The EXR of a render")->required();
    command.add_option("-o,--output", arguments->folder, "Folder for the results");
    const auto add_list =
        [&](const std::string& name, std::vector<std::string>& list, const std::string& help) {
            command.add_option(name, list, help)->allow_extra_args(false);
        };
    add_list("--set",
             arguments->settings.set,
             "Such as \"key.dimmer=0.5\" or \"key.gel=1/2 CTB\"; keys: dimmer, cct_k, duv, gel, "
             "gel.shift_mired, gel.stops");
    add_list("--off", arguments->settings.off, "Switch this fixture off");
    add_list("--solo", arguments->settings.solo, "Switch all others off");
    command.add_flag(
        "--raw", arguments->raw, "The picture shows the film as measured, not cleaned");
    add_float_option(command, arguments->keeps_floats);
    command.add_flag("--json", arguments->json, "Print the statistics as JSON");
    command.callback([arguments, &exit_code] { exit_code = run_rebalance(*arguments); });
}

}  // namespace dapple
