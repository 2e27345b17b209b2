#include "geometry/glassware/fill_loops.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

namespace dapple {

namespace {

// Points on r(φ), anticlockwise, added to `points`; clockwise for a hole.
template <typename Radius>
Loop add_loop(std::vector<glm::dvec2>& points, const glm::dvec2& centre, int n, Radius radius) {
    Loop loop;
    for (int i = 0; i < n; ++i) {
        const double phi = 2 * kPi * i / n;
        loop.push_back(static_cast<uint32_t>(points.size()));
        points.push_back(centre + radius(phi) * glm::dvec2(std::cos(phi), std::sin(phi)));
    }
    return loop;
}

double triangle_area(const std::vector<glm::dvec2>& points, const glm::uvec3& t) {
    const glm::dvec2 u = points[t.y] - points[t.x];
    const glm::dvec2 v = points[t.z] - points[t.x];
    return 0.5 * (u.x * v.y - u.y * v.x);
}

double polygon_area(const std::vector<glm::dvec2>& points, const Loop& loop) {
    double area = 0;
    for (size_t i = 1; i + 1 < loop.size(); ++i) {
        area += triangle_area(points, {loop[0], loop[i], loop[i + 1]});
    }
    return area;
}

// The filling turns no triangle over and has the area of the outlines without the holes.
void check_filling(const std::vector<glm::dvec2>& points, const std::vector<Loop>& loops) {
    double expected = 0;
    for (const Loop& loop : loops) expected += polygon_area(points, loop);
    double found = 0;
    double lowest = 0;
    for (const glm::uvec3& t : fill_loops(points, loops)) {
        found += triangle_area(points, t);
        lowest = std::min(lowest, triangle_area(points, t));
    }
    CHECK(found == doctest::Approx(expected).epsilon(1e-12));
    CHECK(lowest > -1e-15);
}

}  // namespace

TEST_CASE("a circle, a star and a crescent are filled without folds") {
    std::vector<glm::dvec2> points;
    check_filling(points, {add_loop(points, {0, 0}, 200, [](double) { return 1.0; })});
    check_filling(
        points,
        {add_loop(points, {0, 0}, 200, [](double phi) { return 1 + 0.8 * std::sin(7 * phi); })});
    Loop crescent = add_loop(points, {0, 0}, 100, [](double) { return 1.0; });
    Loop bite = add_loop(points, {0.6, 0}, 100, [](double) { return 0.5; });
    // Cut open on the right: the outer circle without its first points, the bite run backwards.
    crescent.erase(crescent.begin(), crescent.begin() + 10);
    crescent.erase(crescent.end() - 10, crescent.end());
    bite.erase(bite.begin(), bite.begin() + 30);
    bite.erase(bite.end() - 30, bite.end());
    crescent.insert(crescent.end(), bite.rbegin(), bite.rend());
    check_filling(points, {crescent});
}

TEST_CASE("holes stay open, and each of several outlines keeps its own") {
    std::vector<glm::dvec2> points;
    std::vector<Loop> loops;
    for (const double x : {0.0, 5.0}) {
        loops.push_back(add_loop(points, {x, 0}, 90, [](double) { return 2.0; }));
        for (const double y : {-0.8, 0.9}) {
            Loop hole = add_loop(points, {x, y}, 60, [](double) { return 0.5; });
            loops.emplace_back(hole.rbegin(), hole.rend());
        }
    }
    check_filling(points, loops);
}

TEST_CASE("edges in any order chain to the loops they came from") {
    const std::vector<Loop> loops =
        chain_loops({{3, 1}, {10, 11}, {1, 2}, {11, 12}, {2, 3}, {12, 13}, {13, 10}});
    REQUIRE(loops.size() == 2);
    CHECK(loops[0] == Loop{1, 2, 3});
    CHECK(loops[1] == Loop{10, 11, 12, 13});
}

}  // namespace dapple
