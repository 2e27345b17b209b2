// dapple completion SHELL and dapple manual: written from the definitions of the commands.
#include <iostream>

#include "commands.h"
#include "shell/write_completion.h"
#include "shell/write_manual.h"

namespace dapple {

namespace {

std::string completion_for(const std::string& shell, const CLI::App& app) {
    const std::vector<CommandWords> words = command_words(app);
    if (shell == "zsh") return zsh_completion(words);
    return shell == "fish" ? fish_completion(words) : bash_completion(words);
}

}  // namespace

void add_completion_command(CLI::App& app, int& exit_code) {
    const auto shell = std::make_shared<std::string>();
    CLI::App& command = *app.add_subcommand(
        "completion", "Completion for your shell, as a file on standard output");
    command.add_option("SHELL", *shell, "The shell")
        ->required()
        ->check(CLI::IsMember({"bash", "zsh", "fish"}).description(""));
    command.callback([shell, &app, &exit_code] {
        std::cout << completion_for(*shell, app);
        exit_code = kDone;
    });
}

void add_manual_command(CLI::App& app, int& exit_code) {
    CLI::App& command = *app.add_subcommand("manual", "The manual page, for man");
    command.callback([&app, &exit_code] {
        std::cout << manual_page(command_words(app));
        exit_code = kDone;
    });
}

}  // namespace dapple
