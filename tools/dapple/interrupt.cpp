#include "interrupt.h"

#include <csignal>

namespace dapple {

namespace {

volatile std::sig_atomic_t stop_requested = 0;

void on_signal(int signal) {
    stop_requested = 1;
    std::signal(signal, SIG_DFL);
}

}  // namespace

void watch_for_interrupt() {
    std::signal(SIGINT, on_signal);
    std::signal(SIGTERM, on_signal);
}

bool interrupted() {
    return stop_requested != 0;
}

}  // namespace dapple
