// dapple merge PARTS: films of different passes, or the shares of a night, added up.
#include <algorithm>
#include <filesystem>
#include <iostream>

#include "commands.h"
#include "interrupt.h"
#include "merge/film_parts.h"
#include "merge/merge_night.h"
#include "output/folder_lock.h"
#include "output/safe_file.h"
#include "render_files.h"
#include "shared_options.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;

struct MergeArguments {
    std::vector<std::string> parts;
    MergeNightOptions night;
};

// A part's name on the command line is that of a file of kept passes or of a folder.
bool are_films(const std::vector<std::string>& parts) {
    for (const std::string& part : parts) {
        if (!fs::exists(part)) throw FileError(part, "does not exist");
    }
    const auto is_folder = [](const std::string& part) { return fs::is_directory(part); };
    if (std::none_of(parts.begin(), parts.end(), is_folder)) return true;
    if (std::all_of(parts.begin(), parts.end(), is_folder)) return false;
    throw FileError(parts.front(), "give either folders or .passes files, not both");
}

int merge_films(const MergeArguments& arguments) {
    if (arguments.night.output.empty()) throw CLI::RequiredError("--output");
    std::vector<std::string> told;
    std::vector<FilmPart> parts;
    for (const std::string& path : arguments.parts) {
        if (const std::optional<FilmPart> part = read_film_part(path, told)) parts.push_back(*part);
    }
    check_writable_folder(arguments.night.output);
    const FolderLock lock(arguments.night.output);
    const std::string stem = fs::path(arguments.parts.front()).stem().string();
    const std::string path = RenderFiles(arguments.night.output, stem).passes;
    const bool has_parts = !parts.empty();
    const uint64_t fingerprint = has_parts ? parts.front().fingerprint : 0;
    const MergedFilm merged = has_parts ? merge_parts_into(parts, path) : MergedFilm{};
    told.insert(told.end(), merged.left_out.begin(), merged.left_out.end());
    for (const std::string& line : told) std::cerr << line << '\n';
    if (!merged.film) throw FileError(arguments.parts.front(), "there is no film to add");
    write_kept_passes(path, merged.film->frame, merged.film->meters, fingerprint);
    const PassRanges& made = merged.film->frame.passes;
    const PassRanges gaps = missing_passes(made, {0, made.ranges().back().end});
    std::cout << path << ": passes " << to_string(made) << '\n';
    if (gaps.count() == 0) return kDone;
    std::cerr << "passes " << to_string(gaps) << " are missing\n";
    return kStoppedEarly;
}

int merge_shares(const MergeArguments& arguments) {
    MergeNightOptions night = arguments.night;
    night.folders = arguments.parts;
    if (night.output.empty()) {
        if (night.folders.size() > 1 ||
            fs::exists(fs::path(night.folders.front()) / "share.json")) {
            throw CLI::RequiredError("--output");
        }
        night.output = night.folders.front();
    }
    const MergeResult result = merge_night(night);
    if (result == MergeResult::kProblems) return kBadInput;
    for (const char* file : {"sheet.pdf", "overnight.json", "table.csv"}) {
        const fs::path path = fs::path(night.output) / file;
        if (fs::exists(path)) std::cout << path.string() << '\n';
    }
    return result == MergeResult::kWhole ? kDone : kStoppedEarly;
}

}  // namespace

void add_merge_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<MergeArguments>();
    CLI::App& command =
        *app.add_subcommand("merge", "Add up films of different passes, or the shares of a night");
    command
        .add_option(
            "PARTS", arguments->parts, "Folders of nights with shares, or .passes files of one set")
        ->required();
    command.add_option("-o,--output",
                       arguments->night.output,
                       "Folder for the results; the night's own when left out");
    command.add_option("--variants",
                       arguments->night.variants_file,
                       "The variants file, if it is not where the shares found it");
    add_threads_option(command, arguments->night.threads);
    command.callback([arguments, &exit_code] {
        end_at_interrupt();
        exit_code =
            are_films(arguments->parts) ? merge_films(*arguments) : merge_shares(*arguments);
    });
}

}  // namespace dapple
