#include "base/fill_in_steps.h"

#include <doctest/doctest.h>

using namespace dapple;

TEST_CASE("an array that grows in steps keeps what it has and fills the rest") {
    std::vector<int> values = {1, 2, 3};
    constexpr size_t kMany = 3'000'000;  // 12 MB: several steps
    grow_in_steps(values, kMany, 7);
    REQUIRE(values.size() == kMany);
    CHECK(values[1] == 2);
    CHECK(values[3] == 7);
    CHECK(values.back() == 7);
    values[kMany - 1] = 9;
    grow_in_steps(values, kMany + kMany / 2, 8);  // beyond its memory, so it moves
    CHECK(values[2] == 3);
    CHECK(values[kMany - 1] == 9);
    CHECK(values.back() == 8);
    grow_in_steps(values, 10, 0);
    CHECK(values.size() == kMany + kMany / 2);
}

TEST_CASE("filling a large array stops when it is asked to, and the array keeps what it had") {
    std::vector<int> values = {1, 2, 3};
    int looks = 0;
    const StopLoops stops([&] { return ++looks > 2; });
    CHECK_THROWS_AS(grow_in_steps(values, 3'000'000, 7), StoppedWork);
    CHECK(values[2] == 3);
    CHECK(values.size() < 3'000'000);
}
