// dapple: see the light before the studio is booked.
#include <exception>
#include <iostream>
#include <new>
#include <string>

#include "base/problems.h"
#include "commands.h"

namespace {

// The message for a command line that names no command, or one that does not exist.
std::string missing_command(const CLI::App& app, const std::string& word) {
    std::string list;
    for (const CLI::App* command : app.get_subcommands(nullptr)) {
        list += (list.empty() ? "" : ", ") + command->get_name();
    }
    return (word.empty() ? "give a command: " : word + ": no such command; there are ") + list;
}

int run(int argc, char** argv) {
    CLI::App app{"See a lit set as the camera would expose it, before the studio is booked."};
    app.name("dapple");
    app.require_subcommand(1);
    app.set_version_flag("--version", "dapple " DAPPLE_VERSION);
    int exit_code = dapple::kDone;
    dapple::add_render_command(app, exit_code);
    dapple::add_check_command(app, exit_code);
    dapple::add_meter_command(app, exit_code);
    dapple::add_judge_command(app, exit_code);
    dapple::add_kit_command(app, exit_code);
    dapple::add_plan_command(app, exit_code);
    dapple::add_rebalance_command(app, exit_code);
    dapple::add_balance_command(app, exit_code);
    dapple::add_overnight_command(app, exit_code);
    dapple::add_merge_command(app, exit_code);
    dapple::add_sheet_command(app, exit_code);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        if (error.get_exit_code() == 0) return app.exit(error);  // --help, --version
        const std::string what = app.get_subcommands().empty()
                                     ? missing_command(app, argc > 1 ? argv[1] : "")
                                     : error.what();
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
