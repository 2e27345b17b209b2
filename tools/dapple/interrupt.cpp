#include "interrupt.h"

#include <csignal>

namespace dapple {

namespace {

volatile std::sig_atomic_t asked_to_stop = 0;

void on_signal(int signal) {
    asked_to_stop = 1;
    std::signal(signal, SIG_DFL);
}

}  // namespace

void watch_for_interrupt() {
    std::signal(SIGINT, on_signal);
    std::signal(SIGTERM, on_signal);
}

bool interrupted() {
    return asked_to_stop != 0;
}

}  // namespace dapple
