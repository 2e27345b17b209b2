#include "variants/night_shares.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <utility>

using namespace dapple;

TEST_CASE("the shares of a night together make every pass of every film once") {
    const std::vector<size_t> films = {0, 3, 4, 7, 9};
    for (const int of : {1, 2, 3, 8, 35, 36, 100}) {
        std::map<std::pair<size_t, int64_t>, int> made;
        for (int number = 1; number <= of; ++number) {
            for (const ShareUnit& unit : units_of_share(films, 7, {number, of})) {
                for (int64_t p = 0; p < unit.passes; ++p) {
                    ++made[{unit.variant, unit.first_pass + p}];
                }
            }
        }
        CHECK(made.size() == 35);
        for (const auto& [pass, times] : made) {
            CHECK(times == 1);
            CHECK(pass.second < 7);
        }
    }
}

TEST_CASE("no share has more than one pass more than another, nor more sets than it must") {
    const std::vector<size_t> films = {0, 1, 2, 3, 4, 5, 6};
    for (const int of : {2, 3, 5, 16}) {
        int64_t least = 1000;
        int64_t most = 0;
        size_t units = 0;
        for (int number = 1; number <= of; ++number) {
            int64_t passes = 0;
            for (const ShareUnit& unit : units_of_share(films, 20, {number, of})) {
                passes += unit.passes;
                ++units;
            }
            least = std::min(least, passes);
            most = std::max(most, passes);
        }
        CHECK(most - least <= 1);
        CHECK(units <= films.size() + static_cast<size_t>(of) - 1);
    }
}
