// dapple: see the light before the studio is booked.
#include <exception>
#include <iostream>
#include <new>
#include <string>
#include <vector>

#include "base/problems.h"
#include "commands.h"
#include "help_words.h"

namespace {

// The message for a command line that names no command, or one that does not exist.
std::string missing_command(const CLI::App& app, const std::string& word) {
    if (word.ends_with(".toml")) {
        return word + " is a set file; to render it: dapple render " + word;
    }
    if (word.ends_with(".exr")) {
        return word + " is a film; to judge it: dapple judge " + word;
    }
    std::string list;
    std::vector<std::string> names;
    for (const CLI::App* command : app.get_subcommands(nullptr)) {
        names.push_back(command->get_name());
        list += (list.empty() ? "" : ", ") + names.back();
    }
    if (word.empty()) return "give a command: " + list;
    const std::string nearest = dapple::nearest_word(word, names);
    return word + ": no such command; " +
           (nearest.empty() ? "there are " + list : "did you mean dapple " + nearest + "?");
}

// "--passes" for "--pases", "" if none is near.
std::string nearest_option(const CLI::App& command, const std::string& word) {
    std::vector<std::string> names;
    for (const CLI::Option* option : command.get_options()) {
        for (const std::string& name : option->get_lnames()) names.push_back(name);
    }
    const std::string nearest = dapple::nearest_word(word.substr(2), names);
    return nearest.empty() ? "" : "--" + nearest;
}

// " (it is an option of rebalance)", for an option that only other commands have; or the option
// that was meant.
std::string whose_option(const CLI::App& app, int argc, char** argv) {
    const CLI::App* used = app.get_subcommands().front();
    for (int i = 2; i < argc; ++i) {
        const std::string word = std::string(argv[i]).substr(0, std::string(argv[i]).find('='));
        if (!word.starts_with("--") || used->get_option_no_throw(word) != nullptr) continue;
        for (const CLI::App* other : app.get_subcommands(nullptr)) {
            if (other->get_option_no_throw(word) == nullptr) continue;
            return " (" + word + " is an option of " + other->get_name() + ")";
        }
        const std::string nearest = nearest_option(*used, word);
        if (!nearest.empty()) return "; did you mean " + nearest + "?";
    }
    return "";
}

int run(int argc, char** argv) {
    CLI::App app{"See a lit set as the camera would expose it, before the studio is booked."};
    app.name("dapple");
    app.require_subcommand(1);
    app.set_version_flag("--version", "dapple " DAPPLE_VERSION);
    int exit_code = dapple::kDone;
    dapple::add_new_command(app, exit_code);
    dapple::add_render_command(app, exit_code);
    dapple::add_check_command(app, exit_code);
    dapple::add_desk_command(app, exit_code);
    dapple::add_meter_command(app, exit_code);
    dapple::add_judge_command(app, exit_code);
    dapple::add_kit_command(app, exit_code);
    dapple::add_keys_command(app, exit_code);
    dapple::add_plan_command(app, exit_code);
    dapple::add_rebalance_command(app, exit_code);
    dapple::add_balance_command(app, exit_code);
    dapple::add_search_command(app, exit_code);
    dapple::add_overnight_command(app, exit_code);
    dapple::add_merge_command(app, exit_code);
    dapple::add_sheet_command(app, exit_code);
    dapple::add_completion_command(app, exit_code);
    dapple::add_manual_command(app, exit_code);
    dapple::add_help_words(app);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) return app.exit(error);  // --help, --version
        const std::string what = app.get_subcommands().empty()
                                     ? missing_command(app, argc > 1 ? argv[1] : "")
                                     : error.what() + whose_option(app, argc, argv);
        std::cerr << "dapple: " << what << "; see dapple --help\n";
        return dapple::kBadInput;
    }
    return exit_code;
}

}  // namespace

int main(int argc, char** argv) {
    try {
        return run(argc, argv);
    } catch (const dapple::FileError& error) {
        std::cerr << error.what() << '\n';
        return dapple::kBadInput;
    } catch (const std::bad_alloc&) {
        std::cerr << "dapple: not enough memory for this set\n";
        return dapple::kOurFault;
    } catch (const std::exception& error) {
        std::cerr << "dapple: our fault, please report it: " << error.what() << '\n';
        return dapple::kOurFault;
    }
}
