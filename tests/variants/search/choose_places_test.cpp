#include "variants/search/choose_places.h"

#include <doctest/doctest.h>

#include <cmath>

namespace dapple {

namespace {

// A place on a line with a look of two parts.
RatedPlace place(double u, double score, float left, float right) {
    return {{u}, score, {left, right}};
}

}  // namespace

TEST_CASE("unlikeness is the root of the mean square of the differences in stops") {
    CHECK(unlikeness(place(0, 0, 1, 2), place(0, 0, 4, 6)) ==
          doctest::Approx(std::sqrt((9.0 + 16.0) / 2)));
    CHECK(unlikeness(place(0, 0, 1, 2), place(0.5, 9, 1, 2)) == 0);
}

TEST_CASE("the best come first, and of almost the same place only the best") {
    const std::vector<RatedPlace> places = {
        place(0.5, 3, 0, 0), place(0.2, 1, 0, 0), place(0.201, 1.1, 0, 0), place(0.9, 2, 0, 0)};
    CHECK(choose_places(places, 3, 0) == std::vector<size_t>{1, 3, 0});
}

TEST_CASE("then come good ones that are most unlike those chosen") {
    std::vector<RatedPlace> places = {place(0.10, 1, 5, 5),
                                      place(0.20, 2, 5, 5),
                                      place(0.30, 3, 5, 6),
                                      place(0.40, 4, 9, 5),
                                      place(0.50, 5, 5, 1)};
    // Bad ones that are unlike everything.
    for (int i = 0; i < 15; ++i) places.push_back(place(0.6 + 0.02 * i, 50, 0, 12));
    const std::vector<size_t> chosen = choose_places(places, 1, 2);
    CHECK(chosen == std::vector<size_t>{0, 3, 4});
}

TEST_CASE("places that look the same are not listed as unlike") {
    const std::vector<RatedPlace> places = {
        place(0.1, 1, 5, 5), place(0.3, 2, 5, 5), place(0.5, 3, 5, 5)};
    CHECK(choose_places(places, 1, 2) == std::vector<size_t>{0});
    CHECK(choose_places({}, 6, 6).empty());
}

}  // namespace dapple
