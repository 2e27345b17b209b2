// dapple plan SET: the kit as a list, the load on the circuits, and what to take care of.
#include <iostream>

#include "commands.h"
#include "load_set.h"
#include "output/safe_file.h"
#include "output/write_plan.h"
#include "render/packing/make_packing_list.h"

namespace dapple {

namespace {

struct PlanCommand {
    std::string set;
    std::string folder;
    bool json = false;
};

int plan(const PlanCommand& options) {
    Problems problems;
    const std::optional<LoadedSet> set = load_set(options.set, 0, problems);
    print_problems(problems);
    if (!set) return kBadInput;
    const PackingList plan = make_plan(set->scene, set->world);
    if (!options.folder.empty()) {
        check_writable_folder(options.folder);
        write_text(options.folder + "/" + set_stem(options.set) + ".plan.json", plan_json(plan));
    }
    std::cout << (options.json ? plan_json(plan) : plan_text(plan));
    return kDone;
}

}  // namespace

void add_plan_command(CLI::App& app, int& exit_code) {
    const auto options = std::make_shared<PlanCommand>();
    CLI::App* command =
        app.add_subcommand("plan", "List the kit: places, light, power, and what to take care of");
    command->add_option("SET", options->set, "The set file")->required();
    command->add_option(
        "-o,--output", options->folder, "Folder for the plan as a file; none when left out");
    command->add_flag("--json", options->json, "Print the plan as JSON");
    command->callback([options, &exit_code] { exit_code = plan(*options); });
}

}  // namespace dapple
