#include "variants/night_clock.h"

namespace dapple {

namespace {

double seconds_of(clockid_t clock) {
    std::timespec time{};
    ::clock_gettime(clock, &time);
    return static_cast<double>(time.tv_sec) + 1e-9 * static_cast<double>(time.tv_nsec);
}

class MachineClock : public NightClock {
  public:
    std::time_t wall() const override { return std::time(nullptr); }
    double real_s() const override { return seconds_of(CLOCK_BOOTTIME); }
    double awake_s() const override { return seconds_of(CLOCK_MONOTONIC); }
};

}  // namespace

const NightClock& machine_clock() {
    static const MachineClock clock;
    return clock;
}

}  // namespace dapple
