// dapple search SET: finds the place where a thing does what is wanted.
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <limits>

#include "base/kept_parts.h"
#include "base/parallel.h"
#include "commands.h"
#include "interrupt.h"
#include "night/night_tables.h"
#include "option_checks.h"
#include "output/folder_lock.h"
#include "output/safe_file.h"
#include "progress_line.h"
#include "search/check_places.h"
#include "search/search_files.h"
#include "set/toml_text.h"
#include "shared_options.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;

constexpr size_t kMostKept = size_t{256} << 20U;  // bytes of parts that places share
constexpr double kSearchShare = 0.6;              // of --minutes
constexpr double kSavedEvery = 5;                 // s
constexpr int kCheckWidth = 480;                  // px, at most, without --width

struct SearchArguments {
    std::string set;
    std::string folder;
    SearchWords words;
    int tries = 300;
    int checked = 12;
    int passes = 16;
    int width = 0;
    int threads = 0;
    uint64_t seed = 1;
    double minutes = 0;
    int place = 0;      // 0: none, search
    std::string write;  // a set file
    bool restart = false;
    bool strict = false;
};

// The tries of one search: kept as they come, shown on one line.
class SearchRun {
  public:
    SearchRun(const SearchArguments& arguments, const SearchQuestion& question)
        : arguments_(arguments), question_(question) {}

    bool run(const PlaceRater& rater, std::vector<SearchTry>& tries) {
        SearchListeners listeners;
        listeners.goes_on = [this] { return !interrupted() && !is_late(); };
        listeners.wants_picture = [](const PlaceRating&) { return false; };
        listeners.on_try = [&](const SearchTry& made) {
            tell(made, tries);
            if (clock_.seconds() < next_save_) return;
            write_search(arguments_.folder, question_, tries, places_of(tries));
            next_save_ = clock_.seconds() + kSavedEvery;
        };
        const bool is_whole = run_search(question_, rater, arguments_.tries, tries, listeners);
        line_.end();
        write_search(arguments_.folder, question_, tries, places_of(tries));
        return is_whole || is_late();
    }

    // Of --minutes, for the check; 0: no limit.
    double hours_left() const {
        if (!(arguments_.minutes > 0)) return 0;
        return std::max(1.0, 60 * arguments_.minutes - clock_.seconds()) / 3600;
    }

  private:
    SearchPlaces places_of(const std::vector<SearchTry>& tries) const {
        const auto chosen = chosen_tries(tries, static_cast<size_t>(arguments_.checked));
        return {chosen.begin(), chosen.end()};
    }
    double limit() const { return 60 * kSearchShare * arguments_.minutes; }
    bool is_late() const { return arguments_.minutes > 0 && clock_.seconds() > limit(); }

    void tell(const SearchTry& made, const std::vector<SearchTry>& tries) {
        ++made_now_;
        const Measure& score = made.rating.score;
        if (made.is_usable() && score && *score < best_score_) {
            best_score_ = *score;
            best_ = words_for_measures(question_.wishes, made.rating.measures);
        }
        const int rated = rated_tries(tries) + (made.is_usable() ? 1 : 0);
        double left = clock_.seconds() / made_now_ * std::max(0, arguments_.tries - rated);
        if (arguments_.minutes > 0) left = std::min(left, limit() - clock_.seconds());
        line_.show_step("try " + std::to_string(rated) + " of " + std::to_string(arguments_.tries) +
                        (best_.empty() ? "" : ", the best: " + best_) + "; " +
                        duration_text(std::max(0.0, left)) + " left");
    }

    const SearchArguments& arguments_;
    const SearchQuestion& question_;
    Clock clock_;
    ProgressLine line_;
    double next_save_ = 0.5;
    double best_score_ = std::numeric_limits<double>::infinity();
    std::string best_;
    int made_now_ = 0;
};

void print_places(const CheckedPlaces& checked) {
    for (const size_t v : order_of_variants(checked.states)) {
        const NightVariantState& s = checked.states[v];
        if (s.standing.rank == 0) continue;
        std::cout << s.standing.rank << ". " << checked.plan.variants[v].variant.name << ": "
                  << words_for_measures(checked.plan.file.wishes, s.measures) << '\n';
    }
}

void print_files(const std::string& folder) {
    for (const char* name : {"sheet.html", "sheet.pdf", "table.csv", "tries.csv", "search.json"}) {
        const fs::path path = fs::path(folder) / name;
        if (fs::exists(path)) std::cout << path.string() << '\n';
    }
}

// Throws if no place can be used.
void check_usable(const std::vector<SearchTry>& tries) {
    if (tries.empty() || rated_tries(tries) > 0) return;
    throw FileError(
        "--vary",
        "no place within these bounds can be used; most often: " + commonest_trouble(tries));
}

PlaceCheck check_of(const SearchArguments& arguments, double hours) {
    PlaceCheck check;
    check.night.folder = arguments.folder;
    check.night.limits.passes = arguments.passes;
    check.night.render.seed = arguments.seed;
    check.night.render.threads = arguments.threads;
    check.width = arguments.width;
    check.hours = hours;
    return check;
}

int search_in_folder(const SearchArguments& arguments,
                     const SearchQuestion& question,
                     const PlaceRater& rater) {
    const FolderLock lock(arguments.folder);
    if (arguments.restart) {
        for (const char* name : {"search.json", "overnight.json"}) {
            fs::remove(fs::path(arguments.folder) / name);
        }
    }
    std::vector<SearchTry> tries = read_tries(arguments.folder, question);
    watch_for_interrupt();
    SearchRun run(arguments, question);
    const bool is_whole = run.run(rater, tries);
    check_usable(tries);
    if (!is_whole) {
        std::cerr << "stopped after " << tries.size()
                  << " tries; all are kept, and the same command goes on\n";
        print_files(arguments.folder);
        return kStoppedEarly;
    }
    const auto chosen = chosen_tries(tries, static_cast<size_t>(arguments.checked));
    Problems problems;
    const CheckedPlaces checked =
        check_places(question, tries, chosen, check_of(arguments, run.hours_left()), problems);
    print_problems(problems);
    if (!problems.empty()) return kBadInput;
    const SearchPlaces ranked = checked.by_rank();
    if (!ranked.empty()) write_search(arguments.folder, question, tries, ranked);
    print_places(checked);
    print_files(arguments.folder);
    return checked.outcome.interrupted ? kStoppedEarly : kDone;
}

// Into a set file that is there, or into a copy of the set.
int write_place(const SearchArguments& arguments) {
    Problems problems;
    const std::string& source = fs::exists(arguments.write) ? arguments.write : arguments.set;
    const std::string text =
        change_set(read_toml_text(source), read_place(arguments.folder, arguments.place), problems);
    print_problems(problems);
    if (!problems.empty()) return kBadInput;
    write_text(arguments.write, text);
    std::cout << arguments.write << '\n';
    return kDone;
}

int run_search_command(SearchArguments& arguments) {
    if (arguments.place > 0) return write_place(arguments);
    end_at_interrupt();
    const KeepParts parts(kMostKept);
    const ThreadLimit threads(arguments.threads);
    Problems problems;
    const std::string text = read_toml_text(arguments.set);
    const std::optional<LoadedSet> base = load_set_text(text, arguments.set, 0, problems);
    SearchQuestion question;
    if (base) question = ask_search(arguments.set, text, arguments.words, problems);
    print_problems(problems);
    if (!problems.empty()) return kBadInput;
    if (stops_at_doubts(*base, arguments.strict)) return kBadInput;
    question.look.seed = arguments.seed;
    question.look.threads = arguments.threads;
    const int width = base->scene.camera.width;
    if (arguments.width == 0) arguments.width = std::min(kCheckWidth, width);
    const PlaceRater rater(question, problems);
    print_problems(problems);
    if (!problems.empty()) return kBadInput;
    check_writable_folder(arguments.folder);
    return search_in_folder(arguments, question, rater);
}

void add_search_words(CLI::App& command, SearchWords& words) {
    command.add_option("--move", words.thing, "The thing that may move, by its name");
    command
        .add_option("--within",
                    words.within,
                    "It may stand so many metres from where it is, along x and along z")
        ->check(number_above_zero());
    command.add_option("--vary",
                       words.vary,
                       "What else may change: x, height, z, turn, tilt, \"distance from FIXTURE\", "
                       "or another number of the thing");
    command.add_option("--want",
                       words.wants,
                       "What of a region, meter, surface, the frame or the figure there should be "
                       "more or less of, or how much");
}

void add_search_numbers(CLI::App& command, SearchArguments& arguments) {
    command.add_option("--tries", arguments.tries, "Places to try; 300 without it")
        ->check(whole_number(1, 100000));
    command.add_option("--minutes", arguments.minutes, "Stop after this time, the check included")
        ->check(number_above_zero());
    command.add_option("--check", arguments.checked, "Places to look at longer; 12 without it")
        ->check(whole_number(1, 100));
    command.add_option("--passes", arguments.passes, "Passes of the check; 16 without it")
        ->check(whole_number(2, 1000000));
    command
        .add_option(
            "--width", arguments.width, "Frame width of the check in pixels; 480 without it")
        ->check(whole_number(1, 16384));
}

}  // namespace

void add_search_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<SearchArguments>();
    CLI::App& command =
        *app.add_subcommand("search", "Find the place where a thing does what you want");
    add_set_option(command, arguments->set);
    command.add_option("-o,--output", arguments->folder, "Folder for the results")->required();
    add_search_words(command, arguments->words);
    add_search_numbers(command, *arguments);
    CLI::Option* place =
        command.add_option("--place", arguments->place, "Take this place of the results")
            ->check(whole_number(1, 100));
    CLI::Option* write =
        command.add_option("--write", arguments->write, "Write that place into this set file");
    place->needs(write);
    write->needs(place);
    add_threads_option(command, arguments->threads);
    add_seed_option(command, arguments->seed, "Another seed gives other noise");
    command.add_flag("--restart", arguments->restart, "Begin anew");
    add_strict_option(command, arguments->strict);
    command.callback([arguments, &exit_code] {
        if (arguments->place == 0 && arguments->words.thing.empty()) {
            throw CLI::RequiredError("--move");
        }
        exit_code = run_search_command(*arguments);
    });
}

}  // namespace dapple
