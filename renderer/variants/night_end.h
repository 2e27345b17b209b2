// When a night ends, whatever the clocks do.
//
// `until` is a time on the wall: the night ends when the clock shows it for the first time after
// the start. The start is counted back from now, in real time, so a clock that is set in the night
// takes the start along with it. `hours` are real time since the start, sleep included: the
// photographer sleeps as long as the laptop does. Setting the clock does not change them.
#pragma once

#include <optional>
#include <string>

#include "variants/night_clock.h"

namespace dapple {

struct TimeOfDay {
    int hour = 0;
    int minute = 0;
};

// "06:30"; nothing if it is no time of day.
std::optional<TimeOfDay> read_time_of_day(const std::string& text);

class NightEnd {
  public:
    // The night starts now. `hours` 0: no such limit.
    NightEnd(const NightClock& clock, std::optional<TimeOfDay> until, double hours);

    // Real seconds until the end; 0 or less: it is over. Nothing: the night has no end of its own.
    std::optional<double> seconds_left() const;
    // What the clock on the wall will show at the end, if nobody sets it.
    std::optional<std::time_t> on_the_wall() const;

  private:
    const NightClock& clock_;
    std::optional<TimeOfDay> until_;
    double hours_;
    double start_;  // of clock_.real_s()
};

}  // namespace dapple
