// Haze along a straight way, and its scattering.
#include "materials/haze_medium.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "base/random.h"

using namespace dapple;

namespace {

// Mean of f over all directions, by the midpoint rule in the cosine, times 4π.
template <class F>
double over_sphere(const F& f) {
    constexpr int kSteps = 200000;
    double sum = 0;
    for (int i = 0; i < kSteps; ++i) sum += f(-1 + (2 * i + 1.0) / kSteps);
    return 2 * kPi * sum * 2 / kSteps;
}

Haze layered_with_clouds() {
    Haze haze;
    haze.extinction = 0.3F;
    haze.height = 1.5F;
    haze.boxes.push_back({"a", Point(1, 1, 0.3F), Vec3(1.5F, 0.8F, 1), 0.5F, 0.8F});
    haze.boxes.push_back({"b", Point(3, 1.5F, 0), Vec3(1, 2, 2), 0, 0.2F});
    return haze;
}

void check_depth(const Haze& haze, const std::optional<Bounds>& room) {
    const HazeMedium medium(haze, room);
    RandomStream random(1, 0, 0, Purpose::kTest);
    for (int k = 0; k < 40; ++k) {
        const Point origin(4 * random.next() - 2, 3 * random.next(), 2 * random.next() - 1);
        const Direction direction =
            glm::normalize(Vec3(random.next() - 0.2F, random.next() - 0.5F, random.next() - 0.5F));
        const HazeWay way = medium.way(origin, direction, 6);
        constexpr int kSteps = 20000;
        double sum = 0;
        for (int i = 0; i < kSteps; ++i) {
            sum += static_cast<double>(way.extinction(6 * (static_cast<float>(i) + 0.5F) / kSteps));
        }
        CHECK(static_cast<double>(way.depth(6)) == doctest::Approx(sum * 6 / kSteps).epsilon(2e-4));
        const float half = 0.5F * way.depth(6);
        if (half > 0) CHECK(way.depth(way.at_depth(half)) == doctest::Approx(half).epsilon(1e-4));
        CHECK(medium.transmittance(origin, direction, 6) ==
              doctest::Approx(way.transmittance(6)).epsilon(1e-6));
    }
}

}  // namespace

TEST_CASE("the phase function is a density with the mean cosine g") {
    for (const float g : {-0.5F, 0.0F, 0.3F, 0.7F, 0.9F}) {
        CAPTURE(g);
        const auto p = [&](double c) {
            return static_cast<double>(eval_phase(g, static_cast<float>(c)));
        };
        CHECK(over_sphere(p) == doctest::Approx(1).epsilon(1e-3));
        CHECK(over_sphere([&](double c) { return c * p(c); }) ==
              doctest::Approx(static_cast<double>(g)).epsilon(1e-3));
    }
}

TEST_CASE("the phase function has its known values") {
    // Henyey and Greenstein 1941, computed from the formula in double precision.
    CHECK(eval_phase(0.6F, 1) == doctest::Approx(0.79577).epsilon(1e-4));
    CHECK(eval_phase(0.6F, std::cos(kPiF / 6)) == doctest::Approx(0.28034).epsilon(1e-4));
    CHECK(eval_phase(0.8F, 0) == doctest::Approx(0.01364).epsilon(1e-3));
    CHECK(eval_phase(0.8F, -1) == doctest::Approx(0.00491).epsilon(1e-3));
}

TEST_CASE("cosines are drawn from the phase function") {
    for (const float g : {-0.6F, 0.0F, 0.0005F, 0.7F, 0.95F}) {
        CAPTURE(g);
        // The share of uniform numbers whose cosine is below c is the integral of the density.
        for (const float c : {-0.8F, 0.0F, 0.5F, 0.9F}) {
            constexpr int kDraws = 100000;
            int below = 0;
            for (int i = 0; i < kDraws; ++i) {
                const float u = (static_cast<float>(i) + 0.5F) / kDraws;
                if (sample_phase(g, u) < c) ++below;
            }
            const double share = over_sphere([&](double x) {
                return x < static_cast<double>(c)
                           ? static_cast<double>(eval_phase(g, static_cast<float>(x)))
                           : 0;
            });
            CHECK(static_cast<double>(below) / kDraws == doctest::Approx(share).epsilon(2e-3));
        }
    }
}

TEST_CASE("even haze follows Beer and Lambert") {
    Haze haze;
    haze.extinction = 3.912F / 40;
    const HazeMedium medium(haze, std::nullopt);
    // σ = 3.912/V: over 6 m at V = 40 m 0.556.
    CHECK(medium.transmittance(Point(0), Direction(0, 0, 1), 6) ==
          doctest::Approx(0.556).epsilon(1e-3));
    CHECK(medium.way(Point(0), Direction(0, 0, 1), 6).transmittance(6) ==
          doctest::Approx(0.556).epsilon(1e-3));
}

TEST_CASE("optical depth is the integral of the extinction, in layers, clouds and a room") {
    Haze even;
    even.extinction = 0.2F;
    Haze layered = even;
    layered.height = 0.8F;
    Bounds room;
    room.add(Point(-1, -0.5F, -1));
    room.add(Point(1.5F, 2, 1));
    for (const auto& bounds : {std::optional<Bounds>(), std::optional<Bounds>(room)}) {
        check_depth(even, bounds);
        check_depth(layered, bounds);
        check_depth(layered_with_clouds(), bounds);
    }
}

TEST_CASE("haze ends at the walls of the room") {
    Haze haze;
    haze.extinction = 1;
    Bounds room;
    room.add(Point(-1));
    room.add(Point(1));
    const HazeMedium medium(haze, room);
    CHECK(medium.transmittance(Point(-5, 0, 0), Direction(1, 0, 0), 3) == 1);
    CHECK(medium.transmittance(Point(-5, 0, 0), Direction(1, 0, 0), 20) ==
          doctest::Approx(std::exp(-2.0)).epsilon(1e-5));
    CHECK(medium.transmittance(Point(-5, 3, 0), Direction(1, 0, 0), 20) == 1);
}
