#include "variants/night_end.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace dapple {

namespace {

// The first time after `start` at which the clock on the wall shows `wanted`.
std::time_t first_time_after(std::time_t start, const TimeOfDay& wanted) {
    std::tm local{};
    ::localtime_r(&start, &local);
    local.tm_hour = wanted.hour;
    local.tm_min = wanted.minute;
    local.tm_sec = 0;
    local.tm_isdst = -1;  // whatever holds at that time
    std::tm same_day = local;
    const std::time_t then = std::mktime(&same_day);
    if (then > start) return then;
    ++local.tm_mday;
    return std::mktime(&local);
}

}  // namespace

std::optional<TimeOfDay> read_time_of_day(const std::string& text) {
    TimeOfDay time{-1, -1};
    char rest = 0;
    const int read = std::sscanf(text.c_str(), "%2d:%2d%c", &time.hour, &time.minute, &rest);
    const bool good =
        read == 2 && time.hour >= 0 && time.hour < 24 && time.minute >= 0 && time.minute < 60;
    return good ? std::optional(time) : std::nullopt;
}

NightEnd::NightEnd(const NightClock& clock, std::optional<TimeOfDay> until, double hours)
    : clock_(clock), until_(until), hours_(hours), start_(clock.real_s()) {}

std::optional<double> NightEnd::seconds_left() const {
    std::optional<double> left;
    const double passed = clock_.real_s() - start_;
    if (hours_ > 0) left = 3600 * hours_ - passed;
    if (until_) {
        const std::time_t now = clock_.wall();
        const std::time_t start = now - static_cast<std::time_t>(std::llround(passed));
        const auto to_time = static_cast<double>(first_time_after(start, *until_) - now);
        left = left ? std::min(*left, to_time) : to_time;
    }
    return left;
}

std::optional<std::time_t> NightEnd::on_the_wall() const {
    const std::optional<double> left = seconds_left();
    if (!left) return std::nullopt;
    return clock_.wall() + static_cast<std::time_t>(std::llround(*left));
}

}  // namespace dapple
