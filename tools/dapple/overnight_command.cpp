// dapple overnight VARIANTS: every variant of a set, ranked, by the morning.
#include <filesystem>
#include <iostream>

#include "base/kept_parts.h"
#include "base/parallel.h"
#include "commands.h"
#include "interrupt.h"
#include "load_set.h"
#include "night/night_notice.h"
#include "night/night_progress.h"
#include "night/night_tables.h"
#include "night/run_night.h"
#include "night/run_share.h"
#include "night/share_files.h"
#include "night/take_stock.h"
#include "option_checks.h"
#include "output/folder_lock.h"
#include "output/safe_file.h"
#include "shared_options.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;

constexpr size_t kMostKept = size_t{256} << 20U;  // bytes of parts that variants share

struct OvernightArguments {
    std::string variants;
    NightOptions night;
    std::string until;
    double hours = 0;
    double memory_gb = 0;
    int width = 0;
    bool dry_run = false;
    bool restart = false;
    bool status = false;
    bool strict = false;
    std::optional<Share> share;
};

// The limits of the command line come first.
void take_limits_of_file(const FileLimits& file, OvernightArguments& arguments) {
    NightLimits& limits = arguments.night.limits;
    const bool has_end = !arguments.until.empty() || arguments.hours > 0;
    if (!has_end) {
        arguments.until = file.until;
        arguments.hours = file.hours;
    }
    if (limits.passes == 0) limits.passes = file.passes;
    if (!(limits.noise_percent > 0)) limits.noise_percent = file.noise_percent;
    if (!(arguments.memory_gb > 0)) arguments.memory_gb = file.memory_gb;
    const bool ends = !arguments.until.empty() || arguments.hours > 0 || limits.passes > 0 ||
                      limits.noise_percent > 0;
    if (!ends && !arguments.dry_run) {
        throw FileError(arguments.variants,
                        "when is the night over? Give --until, --hours, --passes or --noise, or "
                        "[limits] in the file");
    }
}

void remove_earlier(const NightPlan& plan, const std::string& folder) {
    for (size_t i = 0; i < plan.variants.size(); ++i) {
        std::error_code error;
        fs::remove(fs::path(plan.folder_of(folder, i)) / (plan.stem + ".passes"), error);
    }
    std::error_code error;
    fs::remove(fs::path(folder) / "overnight.json", error);
}

void print_result(const NightPlan& plan, const std::vector<NightVariantState>& states) {
    constexpr int kMostPrinted = 5;
    for (const size_t i : order_of_variants(states)) {
        const int rank = states[i].standing.rank;
        if (rank == 0 || rank > kMostPrinted) continue;
        std::cout << place_text(states[i]) << ". " << plan.variants[i].variant.name << '\n';
    }
}

// Takes the folder, and tells how far the night is in it.
std::vector<NightVariantState> take_up(const NightPlan& plan, const OvernightArguments& arguments) {
    const std::string& folder = arguments.night.folder;
    if (arguments.restart) remove_earlier(plan, folder);
    std::vector<NightState> earlier = read_night_states(folder, plan);
    take_stock(plan, folder, earlier);
    check_room(plan, folder);
    std::vector<NightVariantState> states(plan.variants.size());
    for (size_t i = 0; i < states.size(); ++i) states[i].state = earlier[i];
    return states;
}

int render_night(const NightPlan& plan, const OvernightArguments& arguments, const NightEnd& end) {
    const NightOptions& night = arguments.night;
    std::vector<NightVariantState> states = take_up(plan, arguments);
    watch_for_interrupt();
    const ThreadLimit threads(night.render.threads);
    const NightOutcome outcome = run_night(plan, night, end, states);
    print_result(plan, states);
    std::cout << (fs::path(night.folder) / "sheet.html").string() << '\n'
              << (fs::path(night.folder) / "sheet.pdf").string() << '\n'
              << (fs::path(night.folder) / "overnight.json").string() << '\n'
              << (fs::path(night.folder) / "table.csv").string() << '\n';
    if (outcome.failed > 0) {
        std::cerr << outcome.failed << " of " << states.size() << " variants failed\n";
    }
    return outcome.interrupted || outcome.failed > 0 ? kStoppedEarly : kDone;
}

// Of a share there is no more to see than its passes; `dapple merge` makes the rest.
int run_one_share(const OvernightArguments& arguments, const NightPlan& plan, const NightEnd& end) {
    const NightOptions& night = arguments.night;
    std::cerr << "share " << arguments.share->number << " of " << arguments.share->of << ":\n";
    for (const ShareUnit& u : plan_share(plan, night.limits.passes, *arguments.share)) {
        std::cerr << "  " << plan.variants[u.variant].variant.name << ", passes "
                  << u.first_pass + 1 << " to " << u.first_pass + u.passes << '\n';
    }
    if (arguments.dry_run) return kDone;
    const std::string folder = share_folder(night.folder, *arguments.share);
    check_writable_folder(folder);
    const FolderLock lock(folder);
    if (arguments.restart) remove_earlier(plan, folder);
    watch_for_interrupt();
    const ThreadLimit threads(night.render.threads);
    const bool finished = run_share(plan, night, end, *arguments.share);
    std::cout << folder << '\n';
    return finished ? kDone : kStoppedEarly;
}

// A night writes its progress before the first variant is finished, and its list after it.
int print_status(const std::string& folder) {
    const std::string shares = share_status_text(folder);
    const std::string progress = night_progress_text(folder);
    const bool has_list = fs::exists(fs::path(folder) / "overnight.json");
    std::cout << shares;
    if (!shares.empty() && !has_list) return kDone;
    if (!has_list && progress.empty()) {
        throw FileError(folder,
                        "holds no night; dapple overnight VARIANTS -o " + folder + " begins one");
    }
    std::cout << progress;
    std::cout << (has_list ? status_text(folder)
                           : "no variant is finished yet; the list and the sheet come with the "
                             "first\n");
    return kDone;
}

int run_overnight(OvernightArguments& arguments) {
    NightOptions& night = arguments.night;
    if (arguments.status) return print_status(night.folder);
    end_at_interrupt();
    const KeepParts parts(kMostKept);
    Problems problems;
    const NightPlan plan = plan_night(arguments.variants, arguments.width, night.render, problems);
    print_problems(problems);
    if (!problems.empty()) return kBadInput;
    take_limits_of_file(plan.file.limits, arguments);
    const NightEnd end(machine_clock(), read_time_of_day(arguments.until), arguments.hours);
    const std::optional<LoadedSet> base = load_set(plan.file.set_path, arguments.width, problems);
    if (base && stops_at_doubts(*base, arguments.strict)) return kBadInput;
    std::cerr << night_notice(plan, night, end);
    check_memory(plan, arguments.memory_gb);
    if (arguments.share) return run_one_share(arguments, plan, end);
    if (arguments.dry_run) {
        for (const NightVariant& v : plan.variants) std::cout << v.variant.name << '\n';
        return kDone;
    }
    check_writable_folder(night.folder);
    const FolderLock lock(night.folder);
    try {
        return render_night(plan, arguments, end);
    } catch (const DiskError& error) {
        throw DiskError(
            std::string(error.what()),
            "all that was made so far is kept; make room, and the same command goes on");
    }
}

const char* const kShareForm = "must be a share such as 3/8: the third of eight";

// "3/8". CLI prints the message behind the option's name.
std::optional<Share> share_named(const std::string& text) {
    Share share;
    char rest = 0;
    const int read = std::sscanf(text.c_str(), "%7d/%7d%c", &share.number, &share.of, &rest);
    const bool good = read == 2 && share.number >= 1 && share.number <= share.of;
    return good ? std::optional<Share>(share) : std::nullopt;
}

// Throws if the options do not go together.
void check_options(const OvernightArguments& arguments) {
    const NightLimits& limits = arguments.night.limits;
    if (arguments.variants.empty() && !arguments.status) throw CLI::RequiredError("VARIANTS");
    if (arguments.share && limits.noise_percent > 0) {
        throw CLI::ValidationError(
            "--shard",
            "cannot go with --noise: a share does not know the noise of all; give --passes");
    }
    if (arguments.share && limits.passes == 0) {
        throw CLI::ValidationError("--shard", "needs --passes: the passes that are shared out");
    }
}

const CLI::Validator& time_of_day() {
    static const CLI::Validator time(
        [](std::string& text) {
            return read_time_of_day(text) ? std::string()
                                          : "is \"" + text + "\"; must be a time such as 06:30";
        },
        "");
    return time;
}

// When the night ends.
void add_end_options(CLI::App& command, OvernightArguments& arguments) {
    NightLimits& limits = arguments.night.limits;
    command.add_option("--until", arguments.until, "Stop at this time")->check(time_of_day());
    command.add_option("--hours", arguments.hours, "Stop after this long")
        ->check(number_above_zero());
    command.add_option("--passes", limits.passes, "Passes of each variant")
        ->check(whole_number(1, 1000000));
    command
        .add_option("--noise",
                    limits.noise_percent,
                    "A variant is finished when its typical pixel's error is below this, per cent")
        ->check(number_above_zero());
}

void add_share_option(CLI::App& command, OvernightArguments& arguments) {
    command
        .add_option_function<std::string>(
            "--shard",
            [&arguments](const std::string& text) { arguments.share = share_named(text); },
            "Make share I of N of the passes alone; dapple merge adds all shares up")
        ->check(CLI::Validator(
            [](std::string& text) {
                return share_named(text) ? std::string() : "is \"" + text + "\"; " + kShareForm;
            },
            ""));
}

}  // namespace

void add_overnight_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<OvernightArguments>();
    CLI::App& command =
        *app.add_subcommand("overnight", "Render all variants of a set and rank them");
    NightOptions& night = arguments->night;
    command.add_option("VARIANTS", arguments->variants, "Variants file (TOML)");
    command.add_option("-o,--output", night.folder, "Folder for the results")->required();
    add_end_options(command, *arguments);
    command
        .add_option("--memory-gb",
                    arguments->memory_gb,
                    "Refuse a night that would need more memory than this")
        ->check(number_above_zero());
    add_share_option(command, *arguments);
    command.add_option("--width", arguments->width, "Frame width in pixels, in place of the set's")
        ->check(whole_number(1, 16384));
    add_threads_option(command, night.render.threads);
    add_seed_option(command, night.render.seed, "Another seed gives other noise");
    command.add_flag("--dry-run", arguments->dry_run, "Check everything and list the variants");
    command.add_flag("--restart", arguments->restart, "Make all passes anew");
    add_strict_option(command, arguments->strict);
    command.add_flag("--status", arguments->status, "Tell how far the night in this folder is");
    command.callback([arguments, &exit_code] {
        check_options(*arguments);
        exit_code = run_overnight(*arguments);
    });
}

}  // namespace dapple
