#include "film/group_means.h"

#include <doctest/doctest.h>

#include <cmath>

#include "film/test_films.h"

using namespace dapple;

TEST_CASE("groups that rise and fall together have a larger error in sum than apart") {
    // Passes of (1, 10), (3, 30): means 2 and 20, deviations ±1 and ±10, n (n - 1) = 2.
    const std::vector<double> passes = {1, 10, 3, 30};
    const GroupMeans together = make_group_means(passes, 2);
    CHECK(together.sum() == doctest::Approx(22));
    CHECK(*together.stderr_of_sum() == doctest::Approx(11));  // 1 + 10
    const GroupMeans against = make_group_means(std::vector<double>{1, 30, 3, 10}, 2);
    CHECK(*against.stderr_of_sum() == doctest::Approx(9));  // 10 - 1
    CHECK(*against.stderr_of_sum(std::vector<double>{1, 0}) == doctest::Approx(1));
}

TEST_CASE("a dimmed group's share of the error shrinks with its light") {
    GroupMeans means = make_group_means(std::vector<double>{1, 10, 3, 30}, 2);
    means.scale(std::vector<double>{2, 0.5});
    CHECK(means.sum() == doctest::Approx(14));
    CHECK(*means.stderr_of_sum() == doctest::Approx(2 + 5));
}

TEST_CASE("one pass has a mean and no error") {
    const GroupMeans means = make_group_means(std::vector<double>{4, 5}, 2);
    CHECK(means.sum() == doctest::Approx(9));
    CHECK_FALSE(means.stderr_of_sum());
    CHECK(make_group_means({}, 2).sum() == 0);
}
