// dapple keys: prints the page of all keys, or the part of it about one table.
#include <algorithm>
#include <filesystem>
#include <iostream>
#include <sstream>

#include "commands.h"
#include "load_set.h"
#include "set/kit.h"
#include "set/toml_text.h"

namespace dapple {

namespace {

struct KeySection {
    std::string heading;  // "[[fixture]]", "A file of variants"
    std::string name;     // "fixture", "variants"
    std::string text;
};

// scenes/KEYS.md is beside the project's kit.
std::string read_page() {
    for (const std::string& kit : kit_folders("")) {
        const std::filesystem::path page = std::filesystem::path(kit).parent_path() / "KEYS.md";
        std::error_code error;
        if (std::filesystem::exists(page, error)) return read_toml_text(page.string());
    }
    throw FileError("scenes/KEYS.md", "is missing beside the program");
}

std::string name_of_heading(const std::string& heading) {
    if (heading == "Top of the file") return "top";
    if (heading == "Kit files") return "kit";
    if (heading == "A file of variants") return "variants";
    const size_t first = heading.find_first_not_of('[');
    return heading.substr(first, heading.find(']') - first);
}

std::string without_ticks(std::string text) {
    std::erase(text, '`');
    const size_t first = text.find_first_not_of(' ');
    return first == std::string::npos ? ""
                                      : text.substr(first, text.find_last_not_of(' ') - first + 1);
}

// A row of the page's table as two lines: the key with its unit, default and limits; what it is.
std::string row_text(const std::string& line) {
    std::vector<std::string> cells;
    std::istringstream row(line.substr(1));
    for (std::string cell; std::getline(row, cell, '|');) cells.push_back(without_ticks(cell));
    if (cells.size() != 5) return "";
    const std::string unit = cells[1].empty() ? "" : ", " + cells[1];
    return "  " + cells[0] + unit + "; default: " + cells[2] + "; allowed: " + cells[3] +
           "\n      " + cells[4] + "\n";
}

std::vector<KeySection> read_sections() {
    std::vector<KeySection> sections;
    std::istringstream page(read_page());
    for (std::string line; std::getline(page, line);) {
        if (line.starts_with("## ")) {
            sections.push_back({line.substr(3), name_of_heading(line.substr(3)), ""});
        } else if (sections.empty() || line.empty() || line.starts_with("| key") ||
                   line.starts_with("| ---")) {
            continue;
        } else if (line.starts_with("| ")) {
            sections.back().text += row_text(line);
        } else {
            sections.back().text += without_ticks(line) + "\n";
        }
    }
    return sections;
}

int run_keys(const std::string& table) {
    const std::vector<KeySection> sections = read_sections();
    std::vector<std::string> names;
    for (const KeySection& section : sections) names.push_back(section.name);
    std::string wanted = table;
    std::erase_if(wanted, [](char c) { return c == '[' || c == ']'; });
    if (!wanted.empty() && std::find(names.begin(), names.end(), wanted) == names.end()) {
        std::string all;
        for (const std::string& name : names) all += (all.empty() ? "" : ", ") + name;
        std::cerr << "dapple: keys: there is no table \"" << table << "\"; there are " << all
                  << "\n";
        return kBadInput;
    }
    bool is_first = true;
    for (const KeySection& section : sections) {
        if (!wanted.empty() && section.name != wanted) continue;
        std::cout << (is_first ? "" : "\n") << section.heading << "\n" << section.text;
        is_first = false;
    }
    return kDone;
}

}  // namespace

void add_keys_command(CLI::App& app, int& exit_code) {
    const auto table = std::make_shared<std::string>();
    CLI::App& command =
        *app.add_subcommand("keys", "Print every key of a set file, or of one table");
    command.add_option(
        "TABLE", *table, "Name of a table such as fixture, glass or room; or kit, or variants");
    command.callback([table, &exit_code] { exit_code = run_keys(*table); });
}

}  // namespace dapple
