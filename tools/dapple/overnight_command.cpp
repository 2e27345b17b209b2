// dapple overnight VARIANTS: every variant of a set, ranked, by the morning.
#include <array>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <iostream>

#include "base/parallel.h"
#include "commands.h"
#include "interrupt.h"
#include "load_set.h"
#include "night/run_night.h"
#include "night/run_share.h"
#include "night/share_files.h"
#include "option_checks.h"
#include "output/folder_lock.h"
#include "output/safe_file.h"
#include "shared_options.h"

namespace dapple {

namespace {

namespace fs = std::filesystem;
using Clock24 = std::chrono::system_clock;

struct OvernightArguments {
    std::string variants;
    NightOptions night;
    std::string until;
    double hours = 0;
    int width = 0;
    bool dry_run = false;
    bool restart = false;
    bool status = false;
    std::optional<Share> share;
};

// The next time that the clock on the wall shows HH:MM. The option has checked the form.
Clock24::time_point next_time(const std::string& text) {
    std::time_t now = Clock24::to_time_t(Clock24::now());
    std::tm local{};
    ::localtime_r(&now, &local);
    std::sscanf(text.c_str(), "%d:%d", &local.tm_hour, &local.tm_min);
    local.tm_sec = 0;
    local.tm_isdst = -1;
    std::tm wanted = local;
    std::time_t then = std::mktime(&wanted);
    if (then <= now) {
        ++local.tm_mday;
        then = std::mktime(&local);
    }
    return Clock24::from_time_t(then);
}

std::string time_text(Clock24::time_point time) {
    const std::time_t seconds = Clock24::to_time_t(time);
    std::tm local{};
    ::localtime_r(&seconds, &local);
    std::array<char, 32> text{};
    std::strftime(text.data(), text.size(), "%a %H:%M", &local);
    return text.data();
}

void print_plan(const NightPlan& plan, const NightOptions& options) {
    std::cerr << plan.variants.size() << " variants";
    if (plan.films() < plan.variants.size()) {
        std::cerr << " from " << plan.films() << " films; the others differ only in light and are "
                  << "made by rebalancing";
    }
    std::cerr << "; about " << std::ceil(plan.megabytes) << " MB in " << options.folder;
    if (options.until) std::cerr << "; until " << time_text(*options.until);
    if (options.limits.passes > 0) std::cerr << "; to " << options.limits.passes << " passes each";
    if (options.limits.noise_percent > 0) {
        std::cerr << "; to " << options.limits.noise_percent << " % noise each";
    }
    std::cerr << '\n';
}

// Checks that the disk has room for what the plan needs.
void check_room(const NightPlan& plan, const std::string& folder) {
    std::error_code error;
    const fs::space_info space = fs::space(folder, error);
    if (error || static_cast<double>(space.available) / 1e6 > plan.megabytes) return;
    throw FileError(folder,
                    "has " + std::to_string(space.available / 1000000) +
                        " MB free, and this night needs about " +
                        std::to_string(std::llround(plan.megabytes)) + " MB");
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
    for (int rank = 1; rank <= 5; ++rank) {
        for (size_t i = 0; i < states.size(); ++i) {
            if (states[i].rank != rank) continue;
            std::cout << rank << ". " << plan.variants[i].variant.name << '\n';
        }
    }
}

// Of a share there is no more to see than its passes; `dapple merge` makes the rest.
int run_one_share(const OvernightArguments& arguments, const NightPlan& plan) {
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
    const bool finished = run_share(plan, night, *arguments.share);
    std::cout << folder << '\n';
    return finished ? kDone : kStoppedEarly;
}

int run_overnight(OvernightArguments& arguments) {
    NightOptions& night = arguments.night;
    if (arguments.status) {
        const std::string shares = share_status_text(night.folder);
        const bool is_whole = fs::exists(fs::path(night.folder) / "overnight.json");
        std::cout << shares;
        if (is_whole || shares.empty()) std::cout << status_text(night.folder);
        return kDone;
    }
    end_at_interrupt();
    if (!arguments.until.empty()) night.until = next_time(arguments.until);
    if (arguments.hours > 0) {
        const auto length = std::chrono::duration<double>(3600 * arguments.hours);
        night.until = Clock24::now() + std::chrono::duration_cast<Clock24::duration>(length);
    }
    Problems problems;
    const NightPlan plan = plan_night(arguments.variants, arguments.width, night.render, problems);
    print_problems(problems);
    if (!problems.empty()) return kBadInput;
    print_plan(plan, night);
    if (arguments.share) return run_one_share(arguments, plan);
    if (arguments.dry_run) {
        for (const NightVariant& v : plan.variants) std::cout << v.variant.name << '\n';
        return kDone;
    }
    check_writable_folder(night.folder);
    const FolderLock lock(night.folder);
    if (arguments.restart) remove_earlier(plan, night.folder);
    check_room(plan, night.folder);
    std::vector<NightVariantState> states(plan.variants.size());
    const std::vector<NightState> earlier = read_night_states(night.folder, plan);
    for (size_t i = 0; i < states.size(); ++i) states[i].state = earlier[i];
    watch_for_interrupt();
    const ThreadLimit threads(night.render.threads);
    const bool finished = run_night(plan, night, states);
    print_result(plan, states);
    std::cout << (fs::path(night.folder) / "sheet.pdf").string() << '\n'
              << (fs::path(night.folder) / "overnight.json").string() << '\n'
              << (fs::path(night.folder) / "table.csv").string() << '\n';
    return finished ? kDone : kStoppedEarly;
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
    const bool has_end = !arguments.until.empty() || arguments.hours > 0 || limits.passes > 0 ||
                         limits.noise_percent > 0;
    if (!has_end && !arguments.status && !arguments.dry_run) {
        throw CLI::RequiredError("--until, --hours, --passes or --noise");
    }
}

}  // namespace

void add_overnight_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<OvernightArguments>();
    CLI::App& command =
        *app.add_subcommand("overnight", "Render all variants of a set and rank them");
    NightOptions& night = arguments->night;
    command.add_option("VARIANTS", arguments->variants, "Variants file (TOML)");
    command.add_option("-o,--output", night.folder, "Folder for the results")->required();
    const CLI::Validator time(
        [](std::string& text) {
            int hour = -1;
            int minute = -1;
            char rest = 0;
            const int read = std::sscanf(text.c_str(), "%2d:%2d%c", &hour, &minute, &rest);
            const bool good = read == 2 && hour >= 0 && hour < 24 && minute >= 0 && minute < 60;
            return good ? std::string() : "is \"" + text + "\"; must be a time such as 06:30";
        },
        "HH:MM");
    command.add_option("--until", arguments->until, "Stop at this time")->check(time);
    command.add_option("--hours", arguments->hours, "Stop after this long")
        ->check(number_above_zero());
    command.add_option("--passes", night.limits.passes, "Passes of each variant")
        ->check(whole_number(1, 1000000));
    command
        .add_option("--noise",
                    night.limits.noise_percent,
                    "A variant is finished when its typical pixel's error is below this, per cent")
        ->check(number_above_zero());
    command
        .add_option_function<std::string>(
            "--shard",
            [arguments](const std::string& text) { arguments->share = share_named(text); },
            "Make share I of N of the passes alone; dapple merge adds all shares up")
        ->check(CLI::Validator(
            [](std::string& text) {
                return share_named(text) ? std::string() : "is \"" + text + "\"; " + kShareForm;
            },
            "I/N"));
    command.add_option("--width", arguments->width, "Frame width in pixels, in place of the set's")
        ->check(whole_number(1, 16384));
    add_threads_option(command, night.render.threads);
    add_seed_option(command, night.render.seed, "Another seed gives other noise");
    command.add_flag("--dry-run", arguments->dry_run, "Check everything and list the variants");
    command.add_flag("--restart", arguments->restart, "Make all passes anew");
    command.add_flag("--status", arguments->status, "Tell how far the night in this folder is");
    command.callback([arguments, &exit_code] {
        check_options(*arguments);
        exit_code = run_overnight(*arguments);
    });
}

}  // namespace dapple
