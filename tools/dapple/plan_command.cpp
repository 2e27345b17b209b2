// dapple plan SET: the packing list, with the load on the circuits and what to take care of; with a
// folder, the day sheet: drawings, places, what to carry, and what a light meter must read.
#include <iostream>

#include "commands.h"
#include "develop/meter_targets.h"
#include "interrupt.h"
#include "load_set.h"
#include "option_checks.h"
#include "output/day_sheet_json.h"
#include "output/packing_list_text.h"
#include "output/safe_file.h"
#include "read_with_progress.h"
#include "render/packing/make_day_sheet.h"
#include "result_owner.h"
#include "scene/build_gear.h"
#include "shared_options.h"
#include "sheets/day_sheet_pages.h"
#include "sheets/page_files.h"

namespace dapple {

namespace {

struct PlanArguments {
    std::string set;
    std::string folder;
    MeterOptions meters;
    bool json = false;
    bool strict = false;
};

// Adds the meter targets; returns whether the meters were stopped early.
bool add_targets(const LoadedSet& set, const MeterOptions& options, DaySheet& sheet) {
    if (set.scene.meters.empty()) return false;
    try {
        const MeterResult result = read_with_progress(set, options);
        sheet.targets = make_meter_targets(result.readings, result.progress.passes, set.scene);
        return result.stopped_early;
    } catch (const StoppedWork&) {
        std::cerr << "note: stopped before there was a reading; the sheet has no meter targets\n";
        return true;
    }
}

void write_sheet(const std::string& base, const std::string& set, const DaySheet& sheet) {
    DaySheet titled = sheet;
    if (titled.list.title.empty()) titled.list.title = set_stem(set);
    const std::vector<Page> pages = draw_day_sheet(titled);
    write_text(base + ".pdf", pdf_of(pages, titled.list.title));
    write_text(base + ".svg", svg_of(pages));
    write_text(base + ".png", png_of(pages));
    write_text(base + ".json", day_sheet_json_text(sheet, absolute_set(set)));
}

int run_plan(const PlanArguments& arguments) {
    end_at_interrupt();
    Problems problems;
    const std::optional<LoadedSet> set = load_set(arguments.set, 0, problems);
    std::vector<Gear> gear =
        set ? build_gear(read_gear(arguments.set, problems), problems) : std::vector<Gear>();
    print_problems(problems);
    if (!set || !problems.empty() || stops_at_doubts(*set, arguments.strict)) return kBadInput;
    add_columns(set->written.columns, gear);
    const bool has_folder = !arguments.folder.empty();
    const std::string base = arguments.folder + "/" + set_stem(arguments.set) + ".plan";
    if (has_folder) {
        check_writable_folder(arguments.folder);
        check_same_set(base + ".json", absolute_set(arguments.set));
        std::cerr << "results: " << base << ".pdf, .svg, .png, .json\n";
    }
    DaySheet sheet = make_day_sheet(set->scene, set->world, gear);
    bool is_stopped = false;
    if (has_folder) {
        is_stopped = add_targets(*set, arguments.meters, sheet);
        write_sheet(base, arguments.set, sheet);
    }
    std::cout << (arguments.json ? day_sheet_json_text(sheet, absolute_set(arguments.set))
                                 : packing_list_table_text(sheet));
    return is_stopped ? kStoppedEarly : kDone;
}

}  // namespace

void add_plan_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<PlanArguments>();
    MeterOptions& options = arguments->meters;
    CLI::App& command = *app.add_subcommand(
        "plan", "List the kit: places, light, power, and what to take care of; draw the day sheet");
    add_set_option(command, arguments->set);
    command.add_option("-o,--output",
                       arguments->folder,
                       "Folder for the day sheet as PDF, SVG, PNG and JSON; none when left out");
    add_limit_options(command, options.seconds, options.passes);
    command
        .add_option("--noise",
                    options.noise_percent,
                    "Read the meters until every error is below this, in per cent")
        ->check(number_above_zero());
    add_threads_option(command, options.threads);
    add_seed_option(command, options.seed, "Another seed draws other random numbers");
    command.add_flag("--json", arguments->json, "Print the plan as JSON");
    add_strict_option(command, arguments->strict);
    command.callback([arguments, &exit_code] {
        set_default_limits(arguments->meters);
        exit_code = run_plan(*arguments);
    });
}

}  // namespace dapple
