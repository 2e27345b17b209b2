// dapple check SET: reads and checks everything, renders nothing.
#include <iostream>
#include <nlohmann/json.hpp>

#include "commands.h"
#include "load_set.h"
#include "shared_options.h"

namespace dapple {

namespace {

nlohmann::json to_json(const std::vector<Problem>& problems) {
    nlohmann::json list = nlohmann::json::array();
    for (const Problem& p : problems) {
        list.push_back({{"file", p.place.file},
                        {"line", p.place.line},
                        {"column", p.place.column},
                        {"key", p.key},
                        {"message", p.message}});
    }
    return list;
}

struct CheckArguments {
    std::string set;
    bool json = false;
};

int run_check(const CheckArguments& arguments) {
    Problems problems;
    const std::optional<LoadedSet> set = load_set(arguments.set, 0, problems);
    if (arguments.json) {
        const nlohmann::json report = {{"problems", to_json(problems.all())},
                                       {"notes", to_json(problems.notes())}};
        std::cout << report.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) << '\n';
    } else {
        print_problems(problems);
    }
    if (!set) return kBadInput;
    if (!arguments.json) {
        const Scene& scene = set->scene;
        std::cout << arguments.set << ": " << scene.fixtures.size() << " fixtures, "
                  << scene.glasses.size() << " glasses, " << scene.boards.size() << " boards, "
                  << scene.materials.size() << " materials, " << set->world.triangles()
                  << " triangles; nothing wrong\n";
    }
    return kDone;
}

}  // namespace

void add_check_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<CheckArguments>();
    CLI::App& command = *app.add_subcommand("check", "Read and check a set file; render nothing");
    add_set_option(command, arguments->set);
    command.add_flag("--json", arguments->json, "Problems as JSON on standard output");
    command.callback([arguments, &exit_code] { exit_code = run_check(*arguments); });
}

}  // namespace dapple
