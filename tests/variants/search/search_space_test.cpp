#include "variants/search/search_space.h"

#include <doctest/doctest.h>

namespace dapple {

namespace {

std::string value_at(const SearchSpace& space, const std::vector<double>& u, size_t change = 0) {
    return space.changes_at(u).at(change).value;
}

}  // namespace

TEST_CASE("a box varies along its sides that have a length") {
    SearchSpace space{"glass.jar", PlaceBounds{{-1, 0.5, 0}, {1, 0.5, 2}, false}, {}};
    CHECK(space.dimensions() == 2);
    CHECK(value_at(space, {0, 0}) == "[-1.0, 0.5, 0.0]");
    CHECK(value_at(space, {1, 0.5}) == "[1.0, 0.5, 1.0]");
    CHECK(space.changes_at({0, 0})[0].address == "glass.jar.position");
}

TEST_CASE("a line is one dimension from end to end") {
    SearchSpace space{"glass.jar", PlaceBounds{{0, 0, 0}, {1, 2, -1}, true}, {}};
    CHECK(space.dimensions() == 1);
    CHECK(value_at(space, {0.25}) == "[0.25, 0.5, -0.25]");
}

TEST_CASE("keys come after the place, with figures for a thousandth of their range") {
    SearchSpace space{"glass.jar", PlaceBounds{{0, 0, 0}, {1, 0, 0}, false}, {}};
    space.keys = {{"turn_deg", 0, 15}, {"dimmer", 0, 1}, {"output_lm", 0, 10000}};
    CHECK(space.dimensions() == 4);
    const std::vector<double> u = {0.5, 1.0 / 3, 1.0 / 3, 1.0 / 3};
    CHECK(value_at(space, u, 1) == "5.0");
    CHECK(value_at(space, u, 2) == "0.333");
    CHECK(value_at(space, u, 3) == "3333.0");
    CHECK(value_at(space, {0.5, 0.123456, 0, 0}, 1) == "1.85");
}

TEST_CASE("every place is within its bounds") {
    SearchSpace space{"glass.jar", PlaceBounds{{-0.1004, 0, 0}, {0.2006, 0, 1}, false}, {}};
    CHECK(value_at(space, {0, 0}) == "[-0.1, 0.0, 0.0]");
    CHECK(value_at(space, {1, 1}) == "[0.201, 0.0, 1.0]");  // to the nearest millimetre
}

}  // namespace dapple
