#include "shell/command_words.h"

#include <sstream>

namespace dapple {

namespace {

OptionWords words_of(const CLI::Option& option) {
    OptionWords words;
    for (const std::string& name : option.get_snames()) words.names.push_back("-" + name);
    for (const std::string& name : option.get_lnames()) words.names.push_back("--" + name);
    if (option.get_positional()) words.place = option.get_name(true, false);
    if (option.get_type_size() > 0) words.value = option.get_type_name();
    words.about = option.get_description();
    words.is_required = option.get_required();
    words.is_repeated = option.get_items_expected_max() > 1;
    words.is_advanced = option.get_group() != "Options";
    return words;
}

}  // namespace

std::vector<std::string> OptionWords::choices() const {
    std::vector<std::string> words;
    if (value.find('|') == std::string::npos) return words;
    std::istringstream stream(value);
    for (std::string word; std::getline(stream, word, '|');) words.push_back(word);
    return words;
}

std::vector<CommandWords> command_words(const CLI::App& app) {
    std::vector<CommandWords> commands;
    for (const CLI::App* command : app.get_subcommands(nullptr)) {
        CommandWords& words = commands.emplace_back();
        words.name = command->get_name();
        words.about = command->get_description();
        words.examples = command->get_footer();
        for (const CLI::Option* option : command->get_options()) {
            words.options.push_back(words_of(*option));
        }
    }
    return commands;
}

}  // namespace dapple
