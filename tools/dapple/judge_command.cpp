// dapple judge FILM: the answers to the photographer's questions about a film.
#include <iostream>

#include "commands.h"
#include "film_path.h"
#include "judge/judge_film.h"
#include "output/judge_text.h"
#include "output/read_exr.h"
#include "output/safe_file.h"
#include "result_owner.h"
#include "sheets/page_files.h"
#include "sheets/stops_map.h"

namespace dapple {

namespace {

struct JudgeArguments {
    std::string film;
    std::string folder;
    bool json = false;
};

int run_judge(const JudgeArguments& arguments) {
    const std::string path = find_film(arguments.film);
    if (!arguments.folder.empty()) check_writable_folder(arguments.folder);
    const FilmRecord record = read_exr(path);
    const FilmStatistics statistics = judge_film(record);
    const std::string base = arguments.folder + "/" + film_stem(path);
    if (!arguments.folder.empty()) check_same_set(base + ".judge.json", record.run.set);
    const std::string json = judge_json_text(statistics, record);
    std::cout << (arguments.json ? json : judge_text(statistics, record));
    if (arguments.folder.empty()) return kDone;
    write_text(base + ".judge.json", json);
    write_text(base + ".stops.png", png_of({make_stops_map(record)}, stops_map_dpi(record)));
    std::cerr << base << ".judge.json\n" << base << ".stops.png\n";
    return kDone;
}

}  // namespace

void add_judge_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<JudgeArguments>();
    CLI::App& command = *app.add_subcommand(
        "judge", "Judge a film: light, ratios, texture, shadows, hot spots, on one screen");
    command.add_option("film", arguments->film, "The EXR of a render, or the folder that holds it")
        ->required()
        ->option_text("FILM");
    command.add_flag("--json", arguments->json, "Print the judgement as JSON");
    command.add_option("-o,--output",
                       arguments->folder,
                       "Folder for the judgement as JSON and the stops map; none when left out");
    command.callback([arguments, &exit_code] { exit_code = run_judge(*arguments); });
}

}  // namespace dapple
