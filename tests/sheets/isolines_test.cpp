#include "sheets/isolines.h"

#include <doctest/doctest.h>

#include <cmath>

#include "base/units.h"

using namespace dapple;

namespace {

template <typename F>
ScalarField field_of(int width, int height, const F& f) {
    ScalarField field{width, height, {}};
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) field.values.push_back(static_cast<float>(f(x, y)));
    }
    return field;
}

}  // namespace

TEST_CASE("the isoline of a cone is a circle, closed, of the right length") {
    const auto lines = find_isolines(
        field_of(100, 80, [](int x, int y) { return std::hypot(x - 50.0, y - 40.0); }), 20.5);
    REQUIRE(lines.size() == 1);
    CHECK(lines[0].closed);
    for (const DVec2& p : lines[0].points) {
        // Linear between centres one pixel apart: at most 1/(8 r) = 0.006 px off.
        CHECK(std::hypot(p.x - 50.5, p.y - 40.5) == doctest::Approx(20.5).epsilon(0.001));
    }
    CHECK(lines[0].length() == doctest::Approx(2 * kPi * 20.5).epsilon(0.002));
}

TEST_CASE("the isoline of a ramp is one open line from edge to edge") {
    const auto lines = find_isolines(field_of(30, 20, [](int x, int) { return x; }), 7.25);
    REQUIRE(lines.size() == 1);
    CHECK_FALSE(lines[0].closed);
    REQUIRE(lines[0].points.size() == 20);
    for (const DVec2& p : lines[0].points) CHECK(p.x == doctest::Approx(7.75));
    CHECK(lines[0].length() == doctest::Approx(19));
}

TEST_CASE("a saddle is cut into two lines that do not meet, and a level nowhere reached has none") {
    const ScalarField saddle = field_of(2, 2, [](int x, int y) { return x == y ? 1 : 0; });
    CHECK(find_isolines(saddle, 0.4).size() == 2);
    CHECK(find_isolines(saddle, 0.6).size() == 2);
    CHECK(find_isolines(saddle, 2).empty());
    CHECK(find_isolines(field_of(1, 5, [](int, int y) { return y; }), 2.5).empty());
}

TEST_CASE("every crossing is on exactly one line") {
    const ScalarField field = field_of(60, 50, [](int x, int y) {
        return std::sin(0.7 * x) * std::cos(0.9 * y) + 0.3 * std::sin(0.31 * x * y);
    });
    size_t crossings = 0;
    for (int y = 0; y < 50; ++y) {
        for (int x = 0; x < 60; ++x) {
            const bool high = field.at(x, y) > 0.1F;
            if (x + 1 < 60 && high != (field.at(x + 1, y) > 0.1F)) ++crossings;
            if (y + 1 < 50 && high != (field.at(x, y + 1) > 0.1F)) ++crossings;
        }
    }
    size_t points = 0;
    for (const Isoline& line : find_isolines(field, 0.1F)) {
        points += line.points.size() - (line.closed ? 1 : 0);  // a closed line repeats its start
    }
    CHECK(points == crossings);
}

TEST_CASE("blur keeps a ramp and a constant") {
    const ScalarField ramp = blur(field_of(60, 10, [](int x, int) { return 2 * x; }), 3);
    for (int x = 10; x < 50; ++x) CHECK(ramp.at(x, 5) == doctest::Approx(2 * x).epsilon(1e-4));
    CHECK(blur(field_of(20, 20, [](int, int) { return 7; }), 4).at(0, 0) == doctest::Approx(7));
}
