// Which lamps a vertex asks (E94), and the parts of the surfaces that the probabilities belong to.
#include "transport/asked_lamps.h"

#include <doctest/doctest.h>

#include <array>
#include <numeric>

#include "base/random.h"

using namespace dapple;

TEST_CASE("systematic sampling takes each candidate with its probability") {
    // Madow 1949. With evenly spaced u the shares are exact to one step.
    const std::array<float, 5> probabilities{0.06F, 1, 0.4F, 0.25F, 0.9F};
    std::array<int, 5> taken{};
    constexpr int kSteps = 10000;
    for (int k = 0; k < kSteps; ++k) {
        SystematicChoice choice((static_cast<float>(k) + 0.5F) / kSteps);
        for (size_t i = 0; i < taken.size(); ++i) {
            taken[i] += choice.takes(probabilities[i]) ? 1 : 0;
        }
    }
    for (size_t i = 0; i < taken.size(); ++i) {
        CAPTURE(i);
        CHECK(taken[i] == doctest::Approx(kSteps * probabilities[i]).epsilon(0.001));
    }
}

TEST_CASE(
    "probabilities are proportional to the light, at most 1, and have the sum that is asked") {
    const std::array<float, 6> light{8, 4, 2, 1, 0.9F, 0.1F};
    std::array<float, 6> n{};
    set_ask_probabilities(light, 3, n);
    CHECK(n[0] == 1);
    CHECK(n[1] == doctest::Approx(1));  // 8 takes one; 4 of the other 8 is one of the two left
    CHECK(n[2] == doctest::Approx(0.5));
    CHECK(n[3] == doctest::Approx(0.25));
    // All but the floor of the last.
    CHECK(std::accumulate(n.begin(), n.end() - 1, 0.0F) == doctest::Approx(3 - 0.025));
    CHECK(n[5] == doctest::Approx(0.06));
}

TEST_CASE("a lamp without light is still asked now and then, and few lamps are all asked") {
    const std::array<float, 3> light{5, 0, 1};
    std::array<float, 3> n{};
    set_ask_probabilities(light, 4, n);
    CHECK(n[0] == 1);
    CHECK(n[1] == doctest::Approx(0.06));
    CHECK(n[2] == 1);
    set_ask_probabilities(std::array<float, 3>{0, 0, 0}, 4, n);
    for (const float p : n) CHECK(p == doctest::Approx(0.06));
}

TEST_CASE("parts of the surfaces are told apart by place and by axis, not by side") {
    SurfaceCells cells(0.5F, 100);
    const int floor = cells.add(Point(1, 0, 1), Normal(0, 1, 0));
    CHECK(cells.find(Point(1.01F, 0, 1.02F), Normal(0, -1, 0)) == floor);
    CHECK(cells.find(Point(1, 0, 1), Normal(1, 0, 0)) == -1);
    CHECK(cells.find(Point(3, 0, 1), Normal(0, 1, 0)) == -1);
    CHECK(cells.add(Point(3, 0, 1), Normal(0, 1, 0)) == floor + 1);
    CHECK(cells.size() == 2);
}

TEST_CASE("rounding of a coordinate at a round place does not change the part") {
    SurfaceCells cells(0.25F, 100);
    const int part = cells.add(Point(0.3F, 1, 0.3F), Normal(0, 1, 0));
    for (const float off : {-1e-6F, 1e-6F}) {
        CHECK(cells.find(Point(0.3F, 1 + off, 0.3F), Normal(0, 1, 0)) == part);
    }
}

TEST_CASE("where there is no room for another part, nothing is found") {
    SurfaceCells cells(1, 3);
    for (int i = 0; i < 10; ++i) cells.add(Point(static_cast<float>(2 * i), 0, 0), {0, 1, 0});
    CHECK(cells.size() == 3);
    CHECK(cells.find(Point(4, 0, 0), {0, 1, 0}) == 2);
    CHECK(cells.find(Point(18, 0, 0), {0, 1, 0}) == -1);
}
