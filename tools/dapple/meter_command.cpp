// dapple meter SET: what the set's light meters read.
#include <iostream>

#include "commands.h"
#include "develop/judge_meters.h"
#include "interrupt.h"
#include "load_set.h"
#include "make_report.h"
#include "option_checks.h"
#include "output/safe_file.h"
#include "output/write_meters.h"
#include "progress_line.h"
#include "render/read_meters.h"

namespace dapple {

namespace {

struct MeterCommand {
    std::string set;
    std::string folder;
    MeterOptions meter;
    std::string transport = "full";
    bool json = false;
};

int meter(const MeterCommand& options) {
    Problems problems;
    const std::optional<LoadedSet> set = load_set(options.set, 0, problems);
    print_problems(problems);
    if (!set) return kBadInput;
    if (set->scene.meters.empty()) {
        std::cerr << options.set << ": has no [[meter]]; give each a position and facing\n";
        return kBadInput;
    }
    if (!options.folder.empty()) check_writable_folder(options.folder);
    watch_for_interrupt();
    ProgressLine line;
    MeterOptions meter_options = options.meter;
    meter_options.on_pass = [&](const Progress& progress, const MeterFilm&) {
        line.show(progress);
        return !interrupted();
    };
    const MeterResult result = read_meters(set->scene, set->world, meter_options);
    line.end();
    const std::vector<MeterJudgement> meters = judge_meters(result.readings, set->scene);
    const std::string json =
        meters_text(meters,
                    set->scene,
                    make_report(options.meter, options.transport, result.progress.passes, result));
    if (!options.folder.empty()) {
        write_text(options.folder + "/" + set_stem(options.set) + ".meters.json", json);
    }
    std::cout << (options.json ? json : meters_table(meters, set->scene));
    return result.stopped_early ? kStoppedEarly : kDone;
}

}  // namespace

void add_meter_command(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<MeterCommand>();
    CLI::App* command = app.add_subcommand("meter", "Read the set's light meters");
    MeterOptions& m = options->meter;
    command->add_option("SET", options->set, "The set file")->required();
    command->add_option(
        "-o,--output", options->folder, "Folder for the readings as a file; none when left out");
    command->add_option("--seconds", m.seconds, "Stop after this time")->check(number_above_zero());
    command->add_option("--passes", m.passes, "Stop after this many passes")
        ->check(whole_number(1, 1'000'000'000));
    command
        ->add_option(
            "--noise", m.noise_percent, "Stop when every reading is this sure, in per cent")
        ->check(number_above_zero());
    command->add_option("--threads", m.threads, "Threads; all of the machine's when left out")
        ->check(whole_number(1, 1024));
    command->add_option("--seed", m.seed, "Another seed is another chance")
        ->check(whole_number(0, UINT64_MAX));
    command
        ->add_option("--transport",
                     options->transport,
                     "full or walks (the same here), camera (meter walks alone), or partition")
        ->check(CLI::IsMember({"full", "walks", "camera", "partition"}));
    command->add_flag("--json", options->json, "Print the readings as JSON");
    command->callback([options, &exit_code] {
        MeterOptions& meter_options = options->meter;
        meter_options.transport = transport_named(options->transport);
        const bool no_limit = meter_options.passes == 0 && meter_options.seconds == 0 &&
                              meter_options.noise_percent == 0;
        if (no_limit) {
            meter_options.noise_percent = 1;
            meter_options.seconds = 60;
        }
        exit_code = meter(*options);
    });
}

}  // namespace dapple
