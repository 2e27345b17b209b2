#include "interrupt.h"

#include <unistd.h>

#include <csignal>

#include "commands.h"

namespace dapple {

namespace {

volatile std::sig_atomic_t stop_requested = 0;

void on_signal(int signal) {
    stop_requested = 1;
    std::signal(signal, SIG_DFL);
}

void on_early_signal(int) {
    constexpr char kLine[] = "\nstopped while the set was read; no file was written\n";
    // A signal handler may call write and _exit, but not the standard streams.
    if (write(STDERR_FILENO, kLine, sizeof kLine - 1) < 0) _exit(kOurFault);
    _exit(kStoppedEarly);
}

}  // namespace

void end_at_interrupt() {
    std::signal(SIGINT, on_early_signal);
    std::signal(SIGTERM, on_early_signal);
}

void watch_for_interrupt() {
    std::signal(SIGINT, on_signal);
    std::signal(SIGTERM, on_signal);
}

bool interrupted() {
    return stop_requested != 0;
}

}  // namespace dapple
