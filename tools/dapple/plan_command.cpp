// dapple plan SET: the packing list, with the load on the circuits and what to take care of.
#include <iostream>

#include "commands.h"
#include "load_set.h"
#include "output/packing_list_text.h"
#include "output/safe_file.h"
#include "render/packing/make_packing_list.h"
#include "shared_options.h"

namespace dapple {

namespace {

struct PlanArguments {
    std::string set;
    std::string folder;
    bool json = false;
};

int run_plan(const PlanArguments& arguments) {
    Problems problems;
    const std::optional<LoadedSet> set = load_set(arguments.set, 0, problems);
    print_problems(problems);
    if (!set) return kBadInput;
    const PackingList list = make_packing_list(set->scene, set->world);
    const std::string json = packing_list_json_text(list);
    if (!arguments.folder.empty()) {
        check_writable_folder(arguments.folder);
        write_text(arguments.folder + "/" + set_stem(arguments.set) + ".plan.json", json);
    }
    std::cout << (arguments.json ? json : packing_list_table_text(list));
    return kDone;
}

}  // namespace

void add_plan_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<PlanArguments>();
    CLI::App& command =
        *app.add_subcommand("plan", "List the kit: places, light, power, and what to take care of");
    add_set_option(command, arguments->set);
    command.add_option(
        "-o,--output", arguments->folder, "Folder for the plan as a file; none when left out");
    command.add_flag("--json", arguments->json, "Print the plan as JSON");
    command.callback([arguments, &exit_code] { exit_code = run_plan(*arguments); });
}

}  // namespace dapple
