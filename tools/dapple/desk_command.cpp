// dapple desk SET: the set under your hands, in the browser.
#include <sys/wait.h>
#include <unistd.h>

#include <iostream>

#include "commands.h"
#include "desk/desk_server.h"
#include "interrupt.h"
#include "option_checks.h"
#include "shared_options.h"

namespace dapple {

namespace {

struct DeskArguments {
    std::string set;
    int port = 0;
    LiveFrame::Limits limits;
    bool no_browser = false;
};

// Asks the desktop to open the address. Without one, the address is printed anyway.
void open_browser(const std::string& address) {
    const pid_t child = ::fork();
    if (child != 0) {
        if (child > 0) ::waitpid(child, nullptr, 0);
        return;
    }
    if (::fork() != 0) ::_exit(0);  // the browser is not our child, nobody has to wait for it
    if (::freopen("/dev/null", "w", stdout) && ::freopen("/dev/null", "w", stderr)) {
        ::execlp("xdg-open", "xdg-open", address.c_str(), static_cast<char*>(nullptr));
    }
    ::_exit(1);
}

int run_desk(const DeskArguments& arguments) {
    Desk desk(arguments.set, arguments.limits);
    DeskServer server(desk, arguments.port);
    watch_for_interrupt();
    std::cout << "The desk is at " << server.address() << '\n'
              << "It is for this machine only, and ends with Ctrl-C.\n"
              << std::flush;
    if (!arguments.no_browser) open_browser(server.address());
    server.serve(interrupted);
    return kDone;
}

}  // namespace

void add_desk_command(CLI::App& app, int& exit_code) {
    const auto arguments = std::make_shared<DeskArguments>();
    CLI::App& command =
        *app.add_subcommand("desk", "The set under your hands: a page in your browser");
    command.add_option("SET", arguments->set, "Set file; without it a small room to begin with");
    command.add_option("--port", arguments->port, "Port of this machine; any free one without it")
        ->check(whole_number(1, 65535));
    command
        .add_option("--width", arguments->limits.width, "Widest frame in pixels; 960 without it")
        ->check(whole_number(1, 4000));
    command.add_option("--passes", arguments->limits.passes, "Passes at rest; 256 without it")
        ->check(whole_number(1, 1000000));
    command.add_flag("--no-browser", arguments->no_browser, "Only print the address");
    command.callback([arguments, &exit_code] { exit_code = run_desk(*arguments); });
}

}  // namespace dapple
