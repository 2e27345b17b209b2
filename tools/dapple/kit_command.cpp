// dapple kit: lists what a set file can name as kit = "NAME".
#include <algorithm>
#include <filesystem>
#include <iomanip>
#include <iostream>
#include <nlohmann/json.hpp>

#include "commands.h"
#include "load_set.h"
#include "set/kit.h"
#include "set/text_edits.h"
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

void print_table(const std::vector<KitEntry>& entries, const std::string& only_kind) {
    size_t width = 0;
    for (const KitEntry& entry : entries) width = std::max(width, entry.name.size());
    std::string kind;
    for (const KitEntry& entry : entries) {
        if (entry.only_counts || (!only_kind.empty() && entry.kind != only_kind)) continue;
        if (entry.kind != kind) std::cout << (kind.empty() ? "" : "\n") << entry.kind << '\n';
        kind = entry.kind;
        std::cout << "  " << std::left << std::setw(static_cast<int>(width) + 2) << entry.name
                  << entry.about << '\n';
    }
}

// An entry as a kit file has it, to be read or to be copied.
void print_entry(const KitEntry& entry) {
    std::cout << "[[" << entry.kind << "]]  # " << entry.about << "\nkit = \"" << entry.name
              << "\"\n";
    for (const auto& [key, node] : *entry.table) {
        if (key == "kit" || key == "about") continue;
        std::cout << key.str() << " = " << value_text(node) << '\n';
    }
}

// The entry or the entries of a kind, with that name.
int show_named(KitShelf& shelf, const std::string& name, const Problems& problems) {
    std::vector<std::string> names;
    size_t shown = 0;
    bool is_kind = false;
    for (const KitEntry& entry : shelf.entries()) {
        names.push_back(entry.name);
        names.push_back(entry.kind);
        is_kind = is_kind || entry.kind == name;
    }
    print_problems(problems);
    if (!problems.empty()) return kBadInput;
    if (is_kind) print_table(shelf.entries(), name);
    for (const KitEntry& entry : shelf.entries()) {
        if (is_kind || entry.name != name || entry.only_counts) continue;
        if (shown++ > 0) std::cout << '\n';
        print_entry(entry);
    }
    if (is_kind || shown > 0) return kDone;
    const std::string nearest = nearest_word(name, names);
    throw FileError(name,
                    "there is no such entry in the kit and no such set file" +
                        (nearest.empty() ? "" : "; did you mean " + nearest + "?"));
}

struct KitArguments {
    std::string set;
    bool json = false;
};

int run_kit(const KitArguments& arguments) {
    Problems problems;
    const bool is_name = !arguments.set.empty() && !arguments.set.ends_with(".toml") &&
                         !std::filesystem::exists(arguments.set);
    if (is_name) {
        KitShelf shelf(kit_folders("./set.toml"), problems);  // with the kit/ of this folder
        return show_named(shelf, arguments.set, problems);
    }
    if (!arguments.set.empty()) read_toml_text(arguments.set);  // throws if there is no such set
    KitShelf shelf(kit_folders(arguments.set), problems);
    const std::vector<KitEntry>& entries = shelf.entries();
    print_problems(problems);
    if (!problems.empty()) return kBadInput;
    if (arguments.json) {
        std::cout << to_json(entries).dump(2) << '\n';
    } else {
        print_table(entries, "");
    }
    return kDone;
}

}  // namespace

void add_kit_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<KitArguments>();
    CLI::App& command =
        *app.add_subcommand("kit", "List the fixtures, glass and boards that a set can start from");
    command.add_option(
        "SET",
        arguments->set,
        "A set file, whose own kit/ comes first; or the name of an entry or of a kind");
    command.add_flag("--json", arguments->json, "As JSON");
    command.callback([arguments, &exit_code] { exit_code = run_kit(*arguments); });
}

}  // namespace dapple
