// The clocks by which a night is run.
//
// A laptop may sleep during the night, and its clock on the wall may be set: by the network, by
// hand, or at the change to summer time. So there are three clocks. Tests have clocks of their own.
#pragma once

#include <ctime>

namespace dapple {

class NightClock {
  public:
    virtual ~NightClock() = default;
    // What the clock on the wall shows, in seconds since 1970. It may jump.
    virtual std::time_t wall() const = 0;
    // Seconds since some moment, sleep included. It never jumps.
    virtual double real_s() const = 0;
    // The same without sleep: the time in which work can be done.
    virtual double awake_s() const = 0;
};

// The clocks of this machine (Linux: CLOCK_REALTIME, CLOCK_BOOTTIME, CLOCK_MONOTONIC).
const NightClock& machine_clock();

}  // namespace dapple
