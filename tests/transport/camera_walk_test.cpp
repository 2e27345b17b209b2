#include "transport/camera_walk.h"

#include <doctest/doctest.h>

#include <set>

using namespace dapple;

TEST_CASE("in any eight successive walks of a pixel each wavelength is the hero once") {
    for (uint32_t first = 0; first < 8; ++first) {
        std::set<int> heroes;
        for (uint32_t n = first; n < first + 8; ++n) heroes.insert(hero_place(5, 7, n));
        CHECK(heroes == std::set<int>{0, 1, 2, 3, 4, 5, 6, 7});
    }
}

TEST_CASE("two and four walks of a pixel spread their heroes evenly over the spectrum") {
    const auto apart = [](uint32_t walks) {
        std::set<int> steps;
        for (uint32_t n = 1; n < walks; ++n) {
            steps.insert((hero_place(2, 9, n) - hero_place(2, 9, 0) + 8) % 8);
        }
        return steps;
    };
    CHECK(apart(2) == std::set<int>{4});
    CHECK(apart(4) == std::set<int>{2, 4, 6});
}

TEST_CASE("three by three pixels have all heroes") {
    for (int place = 0; place < 64; ++place) {
        std::set<int> heroes;
        for (int k = 0; k < 9; ++k) {
            heroes.insert(hero_place(place % 8 + k % 3, place / 8 + k / 3, 3));
        }
        CHECK(heroes.size() == 8);
    }
}
