// dapple kit: lists what a set file can name as kit = "NAME".
#include <algorithm>
#include <iomanip>
#include <iostream>
#include <nlohmann/json.hpp>

#include "commands.h"
#include "load_set.h"
#include "set/kit.h"
#include "set/toml_text.h"

namespace dapple {

namespace {

nlohmann::json to_json(const std::vector<KitEntry>& entries) {
    nlohmann::json list = nlohmann::json::array();
    for (const KitEntry& entry : entries) {
        if (entry.only_counts) continue;
        list.push_back({{"kind", entry.kind},
                        {"name", entry.name},
                        {"about", entry.about},
                        {"file", entry.place.file},
                        {"line", entry.place.line}});
    }
    return list;
}

void print_table(const std::vector<KitEntry>& entries) {
    size_t width = 0;
    for (const KitEntry& entry : entries) width = std::max(width, entry.name.size());
    std::string kind;
    for (const KitEntry& entry : entries) {
        if (entry.only_counts) continue;
        if (entry.kind != kind) std::cout << (kind.empty() ? "" : "\n") << entry.kind << '\n';
        kind = entry.kind;
        std::cout << "  " << std::left << std::setw(static_cast<int>(width) + 2) << entry.name
                  << entry.about << '\n';
    }
}

struct KitArguments {
    std::string set;
    bool json = false;
};

int run_kit(const KitArguments& arguments) {
    if (!arguments.set.empty()) read_toml_text(arguments.set);  // throws if there is no such set
    Problems problems;
    KitShelf shelf(kit_folders(arguments.set), problems);
    const std::vector<KitEntry>& entries = shelf.entries();
    print_problems(problems);
    if (!problems.empty()) return kBadInput;
    if (arguments.json) {
        std::cout << to_json(entries).dump(2) << '\n';
    } else {
        print_table(entries);
    }
    return kDone;
}

}  // namespace

void add_kit_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<KitArguments>();
    CLI::App& command =
        *app.add_subcommand("kit", "List the fixtures, glass and boards that a set can start from");
    command.add_option("SET", arguments->set, "A set file: its own kit/ comes first");
    command.add_flag("--json", arguments->json, "As JSON");
    command.callback([arguments, &exit_code] { exit_code = run_kit(*arguments); });
}

}  // namespace dapple
