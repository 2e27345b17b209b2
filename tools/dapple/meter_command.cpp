// dapple meter SET: what the set's light meters read.
#include <iostream>

#include "commands.h"
#include "interrupt.h"
#include "judge/judge_meters.h"
#include "load_set.h"
#include "make_run_report.h"
#include "option_checks.h"
#include "output/meters_text.h"
#include "output/safe_file.h"
#include "read_with_progress.h"
#include "result_owner.h"
#include "shared_options.h"

namespace dapple {

namespace {

struct MeterArguments {
    std::string set;
    std::string folder;
    MeterOptions options;
    std::string transport = "full";
    bool json = false;
    bool strict = false;
};

int run_meter(const MeterArguments& arguments) {
    end_at_interrupt();
    Problems problems;
    const std::optional<LoadedSet> set = load_set(arguments.set, 0, problems);
    print_problems(problems);
    if (!set || stops_at_doubts(*set, arguments.strict)) return kBadInput;
    if (set->scene.meters.empty()) {
        std::cerr << arguments.set << ": has no [[meter]]; give each a position and facing\n";
        return kBadInput;
    }
    const std::string file = arguments.folder + "/" + set_stem(arguments.set) + ".meters.json";
    if (!arguments.folder.empty()) {
        check_writable_folder(arguments.folder);
        check_same_set(file, absolute_set(arguments.set));
        std::cerr << "results: " << file << '\n';
    }
    MeterResult result;
    try {
        result = read_with_progress(*set, arguments.options);
    } catch (const StoppedWork&) {
        std::cerr << "stopped before there was a reading\n";
        return kStoppedEarly;
    }
    const std::vector<MeterJudgement> meters =
        judge_meters(result.readings, set->scene.meters, set->scene.fixtures, set->scene.camera);
    RunReport report =
        make_run_report(arguments.options, arguments.transport, result.progress.passes, result);
    report.set = absolute_set(arguments.set);
    const std::string json = meters_json_text(meters, set->scene, report);
    if (!arguments.folder.empty()) write_text(file, json);
    const int passes = result.progress.passes;
    std::cout << (arguments.json ? json : meters_table_text(meters, set->scene, passes));
    return result.stopped_early ? kStoppedEarly : kDone;
}

}  // namespace

void add_meter_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<MeterArguments>();
    MeterOptions& options = arguments->options;
    CLI::App& command = *app.add_subcommand("meter", "Read the set's light meters");
    add_set_option(command, arguments->set);
    command.add_option(
        "-o,--output", arguments->folder, "Folder for the readings as a file; none when left out");
    add_limit_options(command, options.seconds, options.passes);
    command
        .add_option("--noise",
                    options.noise_percent,
                    "Stop when the error of every reading is below this, in per cent")
        ->check(number_above_zero());
    add_threads_option(command, options.threads);
    add_seed_option(command, options.seed, "Another seed draws other random numbers");
    add_transport_option(
        command,
        arguments->transport,
        "full or walks (the same here), camera (meter walks alone: what glass or a "
        "mirror sends on is met by chance, in haze too), or partition");
    command.add_flag("--json", arguments->json, "Print the readings as JSON");
    add_strict_option(command, arguments->strict);
    command.callback([arguments, &exit_code] {
        arguments->options.transport = transport_named(arguments->transport);
        set_default_limits(arguments->options);
        exit_code = run_meter(*arguments);
    });
}

}  // namespace dapple
