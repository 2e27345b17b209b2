// dapple kit: what a set file can start from with kit = "NAME".
#include <algorithm>
#include <iomanip>
#include <iostream>
#include <nlohmann/json.hpp>

#include "commands.h"
#include "load_set.h"
#include "set/kit.h"

namespace dapple {

namespace {

nlohmann::json to_json(const std::vector<KitEntry>& entries) {
    nlohmann::json list = nlohmann::json::array();
    for (const KitEntry& entry : entries) {
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
        if (entry.kind != kind) std::cout << (kind.empty() ? "" : "\n") << entry.kind << '\n';
        kind = entry.kind;
        std::cout << "  " << std::left << std::setw(static_cast<int>(width) + 2) << entry.name
                  << entry.about << '\n';
    }
}

int list_kit(const std::string& set, bool json) {
    Problems problems;
    KitShelf shelf(kit_folders(set), problems);
    const std::vector<KitEntry>& entries = shelf.entries();
    print_problems(problems);
    if (!problems.empty()) return kBadInput;
    if (json) {
        std::cout << to_json(entries).dump(2) << '\n';
    } else {
        print_table(entries);
    }
    return kDone;
}

}  // namespace

void add_kit_command(CLI::App& app, int& exit_code) {
    struct Options {
        std::string set;
        bool json = false;
    };
    const auto options = std::make_shared<Options>();
    CLI::App* command =
        app.add_subcommand("kit", "List the fixtures, glass and boards that a set can start from");
    command->add_option("SET", options->set, "A set file: its own kit/ comes first");
    command->add_flag("--json", options->json, "As JSON");
    command->callback([options, &exit_code] { exit_code = list_kit(options->set, options->json); });
}

}  // namespace dapple
