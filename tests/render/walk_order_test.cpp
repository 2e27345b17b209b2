// The order in which light walks are traced.
#include "render/walk_order.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

using namespace dapple;

namespace {

constexpr int kWalks = 20000;

// Mean distance between successive walks, in the two uniform numbers for the direction.
double mean_step(const SobolOwen4d& starts, const std::vector<int>& order) {
    double sum = 0;
    for (size_t i = 1; i < order.size(); ++i) {
        const auto a = starts.point(static_cast<uint32_t>(order[i - 1]));
        const auto b = starts.point(static_cast<uint32_t>(order[i]));
        sum += std::hypot(a[2] - b[2], a[3] - b[3]);
    }
    return sum / static_cast<double>(order.size() - 1);
}

std::vector<int> by_index(int walks) {
    std::vector<int> order;
    for (int i = 0; i < walks; ++i) order.push_back(i);
    return order;
}

}  // namespace

TEST_CASE("every light walk is traced once") {
    for (const int walks : {0, 1, 2, 777, kWalks}) {
        std::vector<int> order = order_by_direction(SobolOwen4d(3), walks);
        std::sort(order.begin(), order.end());
        CAPTURE(walks);
        CHECK(order == by_index(walks));
    }
}

TEST_CASE("successive walks leave in nearly the same direction") {
    const SobolOwen4d starts(3);
    // The mean distance of two random points of a unit square is 0.52 (Weisstein, square line
    // picking: (2 + √2 + 5 ln(1 + √2))/15; from memory). Successive points of the sequence are not
    // nearer.
    CHECK(mean_step(starts, by_index(kWalks)) > 0.45);
    // The cells are 1/256 by 1/64. The mean distance is about the longer side.
    CHECK(mean_step(starts, order_by_direction(starts, kWalks)) < 2.0 / 64);
}
