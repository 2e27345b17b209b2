// A beam that fills a ball of glass: the share that the ball's surfaces reflect, and the
// concentration of light at its focus.
#include <doctest/doctest.h>

#include <cmath>

#include "published/ball_rays.h"
#include "published/published.h"

namespace ball_caustic_test {

using namespace dapple;
using namespace dapple::published;

namespace {

const Subject kSubject("Ball of glass");

// Share of the light on a ball of n = 1.52 that arrives within r of the axis at its focus, by two
// refractions alone. Recomputed from Fresnel's and Snell's formulas over 2e5 strata: once with each
// polarisation followed separately through both surfaces, once with light taken as unpolarised at
// each surface, as it is traced here.
constexpr double kFocus = 1.4615;  // radii from the centre
struct Spot {
    double within;
    const char *polarised, *unpolarised;
};
constexpr Spot kSpots[] = {{0.02, "0.1496", "0.1496"},
                           {0.05, "0.2581", "0.2580"},
                           {0.1, "0.3763", "0.3762"},
                           {0.2, "0.5215", "0.5210"},
                           {0.5, "0.7089", "0.7072"},
                           {9, "0.8347", "0.8294"}};

std::string within(double r) {
    return r > 1 ? " anywhere" : " within " + figure(r) + " R of the focus";
}

// The difference of the two figures, and the rounding of both.
Allowance averaged(const Spot& spot) {
    return {std::stod(spot.polarised) - std::stod(spot.unpolarised) + 1e-4,
            "polarisation is not traced"};
}

const char* const kFluxSource = "Fresnel's and Snell's formulas; Born and Wolf";

}  // namespace

TEST_CASE("a ball's first surface reflects the published share of a beam that fills it") {
    constexpr int kSteps = 200000;
    const char* const rows[][2] = {{"1.333", "0.0664"}, {"1.5", "0.0918"}, {"1.52", "0.0947"}};
    for (const auto& [index, loss] : rows) {
        double sum = 0;
        for (int i = 0; i < kSteps; ++i) {
            sum += through_sphere(std::sqrt((i + 0.5) / kSteps), std::stof(index)).first;
        }
        kSubject.exact(std::string("Reflected by the first surface of a ball, n = ") + index,
                       "Fresnel's formulas, averaged over sin²; Born and Wolf",
                       "",
                       loss,
                       sum / kSteps);
    }
}

TEST_CASE("light is concentrated at an exact sphere's focus as published") {
    constexpr int kSteps = 200000;
    double sums[std::size(kSpots)] = {};
    for (int i = 0; i < kSteps; ++i) {
        const SphereRay ray = through_sphere(std::sqrt((i + 0.5) / kSteps), 1.52F);
        const double height = std::abs(ray.height_at(kFocus));
        for (size_t k = 0; k < std::size(kSpots); ++k) {
            if (height < kSpots[k].within) sums[k] += ray.share / kSteps;
        }
    }
    for (size_t k = 0; k < std::size(kSpots); ++k) {
        kSubject.exact("Share of a beam that a ball of n = 1.52 sends" + within(kSpots[k].within),
                       kFluxSource,
                       "",
                       kSpots[k].polarised,
                       sums[k],
                       averaged(kSpots[k]));
        kSubject.exact(
            "The same" + within(kSpots[k].within) + ", against R averaged at each surface",
            kFluxSource,
            "",
            kSpots[k].unpolarised,
            sums[k]);
    }
}

TEST_CASE("light is concentrated at the focus of the engine's ball as published") {
    constexpr int kWalks = 1000000;
    const Bench bench(ball_scene(GlassType::kSilica), kAnyWavelength);
    RandomStream random(1, 0, 0, Purpose::kLightWalk);
    Tally tallies[std::size(kSpots)];
    for (int i = 0; i < kWalks; ++i) {
        const BallAim from = aim_at_ball(random);
        const double h = std::sqrt(static_cast<double>(random.next()));
        // A ray at the very edge may miss the triangles. It would not reach the focus anyway.
        const auto passage = pass_through(bench, towards_ball(from, h), 1.52F);
        if (!passage) continue;
        const glm::dvec3 exit = glm::dvec3(passage->exit) / static_cast<double>(kBallRadius);
        const double to_plane =
            (kFocus - glm::dot(exit, from.along)) / glm::dot(passage->direction, from.along);
        const glm::dvec3 landed = exit + to_plane * passage->direction;
        const double height = glm::length(landed - glm::dot(landed, from.along) * from.along);
        for (size_t k = 0; k < std::size(kSpots); ++k) {
            if (height < kSpots[k].within) tallies[k].add(passage->share);
        }
    }
    for (size_t k = 0; k < std::size(kSpots); ++k) {
        kSubject.mean("Share of a beam that the engine's ball, n = 1.52, sends" +
                          within(kSpots[k].within) + ", against R averaged at each surface",
                      kFluxSource,
                      "",
                      kSpots[k].unpolarised,
                      tallies[k].mean_of(kWalks));
    }
}

TEST_CASE("all light that falls on a clear ball leaves it again") {
    constexpr int kWalks = 100000;
    const Bench bench(ball_scene(GlassType::kSilica), kAnyWavelength);
    RandomStream random(1, 0, 0, Purpose::kLightWalk);
    Tally tally;
    for (int i = 0; i < kWalks; ++i) {
        const BallAim from = aim_at_ball(random);
        Walk walk = towards_ball(from, std::sqrt(static_cast<double>(random.next())));
        if (let_go(bench, walk, 1.52F, random)) tally.add(walk.light.throughput[0]);
    }
    kSubject.mean("Share of a beam that leaves the engine's ball, all ways together",
                  "nothing is lost",
                  "",
                  "1.0000",
                  tally.mean_of(kWalks));
}

}  // namespace ball_caustic_test
