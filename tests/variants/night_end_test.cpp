#include "variants/night_end.h"

#include <doctest/doctest.h>
#include <stdlib.h>

#include "variants/pace.h"

using namespace dapple;

namespace {

constexpr std::time_t kEvening = 1'700'000'000;  // 2023-11-14 22:13:20 UTC
constexpr double kHour = 3600;

// A clock that a test moves.
class SetClock : public NightClock {
  public:
    SetClock() {
        ::setenv("TZ", "UTC", 1);
        ::tzset();
    }
    std::time_t wall() const override { return wall_; }
    double real_s() const override { return real_; }
    double awake_s() const override { return awake_; }

    void work(double seconds) {
        awake_ += seconds;
        sleep(seconds);
    }
    void sleep(double seconds) {
        real_ += seconds;
        wall_ += static_cast<std::time_t>(seconds);
    }
    void set(std::time_t wall) { wall_ = wall; }

  private:
    std::time_t wall_ = kEvening;
    double real_ = 5000;
    double awake_ = 3000;
};

const TimeOfDay kMorning{6, 30};
constexpr double kToMorning = 8 * kHour + 16 * 60 + 40;  // from kEvening to 06:30

}  // namespace

TEST_CASE("a time of day has two numbers that a clock can show") {
    CHECK(read_time_of_day("06:30")->minute == 30);
    CHECK(read_time_of_day("6:05")->hour == 6);
    for (const char* text : {"24:00", "06:60", "0630", "06:30h", "-1:00", ""}) {
        CHECK_FALSE(read_time_of_day(text));
    }
}

TEST_CASE("a night without an end of its own has none") {
    const SetClock clock;
    CHECK_FALSE(NightEnd(clock, {}, 0).seconds_left());
}

TEST_CASE("--until is the next time that the clock shows it") {
    SetClock clock;
    const NightEnd end(clock, kMorning, 0);
    CHECK(*end.seconds_left() == kToMorning);
    CHECK(*end.on_the_wall() == kEvening + static_cast<std::time_t>(kToMorning));
    const NightEnd later_today(clock, TimeOfDay{22, 14}, 0);
    CHECK(*later_today.seconds_left() == 40);
    const NightEnd just_passed(clock, TimeOfDay{22, 13}, 0);
    CHECK(*just_passed.seconds_left() == 24 * kHour - 20);
    clock.work(kToMorning + 1);
    CHECK(*end.seconds_left() <= 0);
}

TEST_CASE("a laptop that slept past --until is told so when it wakes") {
    SetClock clock;
    const NightEnd end(clock, kMorning, 0);
    clock.work(2 * kHour);
    clock.sleep(5 * kHour);
    CHECK(*end.seconds_left() == kToMorning - 7 * kHour);
    clock.sleep(5 * kHour);
    CHECK(*end.seconds_left() < 0);
}

TEST_CASE("--until follows a clock that is set in the night") {
    SetClock clock;
    const NightEnd end(clock, kMorning, 0);
    clock.work(kHour);
    clock.set(clock.wall() + 120);  // it was two minutes slow
    CHECK(*end.seconds_left() == kToMorning - kHour - 120);
    clock.set(clock.wall() - 2 * 3600);  // another time zone
    CHECK(*end.seconds_left() == kToMorning + kHour - 120);

    SetClock wrong;
    wrong.set(1000);  // 1970: it has not asked the network yet
    const NightEnd after(wrong, kMorning, 0);
    wrong.work(600);
    wrong.set(kEvening);
    CHECK(*after.seconds_left() == kToMorning);
}

TEST_CASE("--until at the change to winter time is the time that the clock shows") {
    SetClock clock;
    ::setenv("TZ", "CET-1CEST,M3.5.0,M10.5.0/3", 1);
    ::tzset();
    clock.set(1'698'526'800);  // 2023-10-28 23:00 in summer time, seven and a half hours before
    CHECK(*NightEnd(clock, kMorning, 0).seconds_left() == 8.5 * kHour);
    ::setenv("TZ", "UTC", 1);
    ::tzset();
}

TEST_CASE("--hours are real hours, asleep or awake, whatever the clock on the wall is set to") {
    SetClock clock;
    const NightEnd end(clock, {}, 8);
    clock.work(kHour);
    clock.set(1000);
    clock.sleep(2 * kHour);
    CHECK(*end.seconds_left() == 5 * kHour);
    clock.work(5 * kHour);
    CHECK(*end.seconds_left() == 0);
}

TEST_CASE("with both, the night ends at the earlier") {
    const SetClock clock;
    CHECK(*NightEnd(clock, kMorning, 2).seconds_left() == 2 * kHour);
    CHECK(*NightEnd(clock, kMorning, 20).seconds_left() == kToMorning);
}

TEST_CASE("a thing at its pace takes no more than its share of the time awake") {
    SetClock clock;
    Pace pace(0.01, 5, clock.awake_s());
    double spent = 0;
    const double start = clock.awake_s();
    for (int i = 0; i < 20000; ++i) {
        clock.work(1);
        clock.sleep(i % 100 == 0 ? kHour : 0);  // sleep does not count
        if (!pace.is_due(clock.awake_s())) continue;
        const double begin = clock.awake_s();
        const double cost = i < 10000 ? 0.5 : 3;  // a slower disk later
        clock.work(cost);
        spent += cost;
        pace.done(begin, clock.awake_s());
        CHECK(pace.last_cost() == doctest::Approx(cost));
    }
    const double share = spent / (clock.awake_s() - start);
    CHECK(share < 0.01);
    CHECK(share > 0.009);
}

TEST_CASE("what costs nothing is done no more often than its least interval") {
    Pace pace(0.01, 5, 100);
    CHECK_FALSE(pace.is_due(104));
    CHECK(pace.is_due(105));
    pace.done(105, 105);
    CHECK_FALSE(pace.is_due(109));
    CHECK(pace.is_due(110));
}
