#include "variants/search/search_steps.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>

#include "base/random.h"

namespace dapple {

namespace {

using Point4 = std::vector<double>;
using Score = std::function<std::optional<double>(const Point4&)>;

double square_distance(const Point4& a, const Point4& b) {
    double sum = 0;
    for (size_t i = 0; i < a.size(); ++i) sum += (a[i] - b[i]) * (a[i] - b[i]);
    return sum;
}

const Point4 kLow = {0.71, 0.23, 0.64, 0.37};
const Point4 kOther = {0.15, 0.8, 0.2, 0.9};

// Two hollows, one deeper, with ripples that a straight way down would be caught in.
std::optional<double> hollows(const Point4& u) {
    const double near = square_distance(u, kLow);
    const double far = square_distance(u, kOther);
    const double ripples = 0.02 * std::sin(40 * u[0]) * std::sin(30 * u[1]);
    return -std::exp(-near / 0.08) - 0.8 * std::exp(-far / 0.08) + ripples;
}

struct Found {
    double score = std::numeric_limits<double>::infinity();
    Point4 u;
    std::vector<Point4> asked;
};

Found search(SearchSteps& steps, const Score& score) {
    Found found;
    while (!steps.is_done()) {
        const Point4 u = steps.next();
        found.asked.push_back(u);
        const auto s = score(u);
        if (s && *s < found.score) {
            found.score = *s;
            found.u = u;
        }
        steps.tell(s);
    }
    return found;
}

double best_of_random(int count, uint64_t draw) {
    double best = std::numeric_limits<double>::infinity();
    for (int i = 0; i < count; ++i) {
        Point4 u;
        for (uint64_t d = 0; d < 4; ++d) {
            const uint64_t bits = mix_bits(mix_bits(draw, static_cast<uint64_t>(i)), d);
            u.push_back(static_cast<double>(bits >> 11U) * 0x1p-53);
        }
        best = std::min(best, *hollows(u));
    }
    return best;
}

}  // namespace

TEST_CASE("300 tries find the deeper of two rippled hollows in four dimensions") {
    SearchSteps steps(4, 300);
    const Found found = search(steps, hollows);
    CHECK(found.asked.size() == 300);
    CHECK(std::sqrt(square_distance(found.u, kLow)) < 0.1);  // the ripples shift it by about 0.04
    // Nobody finds less than -1 - 0.02.
    CHECK(found.score < -0.95);
}

TEST_CASE("300 tries are better than each of eight draws of 400 at random") {
    SearchSteps steps(4, 300);
    const Found found = search(steps, hollows);
    for (uint64_t draw = 1; draw <= 8; ++draw) CHECK(found.score < best_of_random(400, draw));
}

TEST_CASE("places stay within the bounds, and all of them are seen at first") {
    SearchSteps steps(3, 200);
    std::array<double, 3> low{1, 1, 1};
    std::array<double, 3> high{0, 0, 0};
    const Found found = search(steps, [](const Point4& u) { return u[0] + u[1] + u[2]; });
    for (const Point4& u : found.asked) {
        for (size_t d = 0; d < 3; ++d) {
            CHECK(u[d] >= 0);
            CHECK(u[d] <= 1);
            low[d] = std::min(low[d], u[d]);
            high[d] = std::max(high[d], u[d]);
        }
    }
    for (size_t d = 0; d < 3; ++d) {
        CHECK(low[d] < 0.02);
        CHECK(high[d] > 0.98);
    }
    CHECK(found.score < 0.05);  // the corner
}

TEST_CASE("places that cannot be used cost no tries and are not chosen") {
    SearchSteps steps(2, 100);
    const Found found = search(steps, [](const Point4& u) -> std::optional<double> {
        if (u[0] < 0.5) return std::nullopt;
        return u[0];
    });
    CHECK(steps.rated() == 100);
    CHECK(found.asked.size() > 130);
    CHECK(found.u[0] >= 0.5);
    CHECK(found.score < 0.51);
}

TEST_CASE("a search without any place to use ends") {
    SearchSteps steps(2, 100);
    const Found found = search(steps, [](const Point4&) { return std::nullopt; });
    CHECK(steps.rated() == 0);
    CHECK(found.asked.size() < 1000);
}

TEST_CASE("a search that is begun again with the same scores goes on as it would have") {
    SearchSteps whole(4, 150);
    const Found all = search(whole, hollows);
    SearchSteps again(4, 150);
    for (size_t i = 0; i < 120; ++i) {
        CHECK(again.next() == all.asked[i]);
        again.tell(hollows(all.asked[i]));
    }
    const Found rest = search(again, hollows);
    REQUIRE(rest.asked.size() == 30);
    CHECK(std::equal(rest.asked.begin(), rest.asked.end(), all.asked.begin() + 120));
}

TEST_CASE("places that are too dark to be measured count as the worst") {
    SearchSteps steps(2, 60);
    const Found found = search(steps, [](const Point4& u) {
        return u[1] < 0.9 ? std::numeric_limits<double>::infinity() : 1 - u[1];
    });
    CHECK(steps.rated() == 60);
    CHECK(found.score < 0.02);
}

}  // namespace dapple
