// dapple check SET: reads and checks everything, renders nothing.
#include <iostream>
#include <nlohmann/json.hpp>

#include "commands.h"
#include "load_set.h"

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

int check(const std::string& path, bool json) {
    Problems problems;
    const std::optional<LoadedSet> set = load_set(path, 0, problems);
    if (json) {
        const nlohmann::json report = {{"problems", to_json(problems.all())},
                                       {"notes", to_json(problems.notes())}};
        std::cout << report.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) << '\n';
    } else {
        print_problems(problems);
    }
    if (!set) return kBadInput;
    if (!json) {
        const Scene& scene = set->scene;
        std::cout << path << ": " << scene.fixtures.size() << " fixtures, " << scene.glasses.size()
                  << " glasses, " << scene.boards.size() << " boards, " << scene.materials.size()
                  << " materials, " << set->world.triangles() << " triangles; nothing wrong\n";
    }
    return kDone;
}

}  // namespace

void add_check_command(CLI::App& app, int& exit_code) {
    struct Options {
        std::string set;
        bool json = false;
    };
    const auto options = std::make_shared<Options>();
    CLI::App* command = app.add_subcommand("check", "Read and check a set file; render nothing");
    command->add_option("SET", options->set, "The set file")->required();
    command->add_flag("--json", options->json, "Problems as JSON on standard output");
    command->callback([options, &exit_code] { exit_code = check(options->set, options->json); });
}

}  // namespace dapple
