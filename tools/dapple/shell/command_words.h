// The commands and options of the program as plain data, taken from their definitions. Completion
// and the manual are written from it, so they cannot be out of date.
#pragma once

#include <CLI/CLI.hpp>
#include <string>
#include <vector>

namespace dapple {

struct OptionWords {
    std::vector<std::string> names;  // "-o", "--output"; empty: it stands without a name
    std::string place;               // "SET"; "": it has names
    std::string value;               // "SECONDS", "FOLDER", "bash|zsh|fish"; "": a flag
    std::string about;
    bool is_required = false;
    bool is_repeated = false;
    bool is_advanced = false;

    // The words that the value may be; empty: any.
    std::vector<std::string> choices() const;
};

struct CommandWords {
    std::string name;
    std::string about;
    std::string examples;
    std::vector<OptionWords> options;
};

std::vector<CommandWords> command_words(const CLI::App& app);

}  // namespace dapple
