// sample(), pdf() and eval() agree for every material.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <utility>

#include "chi_square.h"
#include "materials/all_materials.h"

namespace dapple {

namespace {

constexpr int kThetaBins = 24;
constexpr int kPhiBins = 24;

// Bins are laid out around a tilted axis, so that their edges are not those of densities, where
// quadrature would count nothing or twice too much.
const Frame& bin_frame() {
    static const Frame frame(Direction(0.36F, 0.48F, 0.8F));
    return frame;
}

// ∫ pdf dω over a patch of the sphere. The patch is halved in both directions until two rules
// agree, because lobes may be narrower than a bin.
double patch_probability(
    const Bsdf& bsdf, const Direction& wo, Vec2 low, Vec2 high, int depth, double coarse) {
    constexpr int kPoints = 5;
    const auto midpoint_rule = [&](Vec2 from, Vec2 to) {
        double sum = 0;
        for (int a = 0; a < kPoints; ++a) {
            for (int b = 0; b < kPoints; ++b) {
                const Vec2 at = from + (to - from) * Vec2((static_cast<float>(a) + 0.5F) / kPoints,
                                                          (static_cast<float>(b) + 0.5F) / kPoints);
                const Direction wi = bin_frame().to_world(
                    direction_from_angles(std::cos(at.x), std::sin(at.x), at.y));
                sum += static_cast<double>(pdf(bsdf, wo, wi)) * std::sin(at.x);
            }
        }
        return sum * (to.x - from.x) * (to.y - from.y) / (kPoints * kPoints);
    };
    if (coarse < 0) coarse = midpoint_rule(low, high);
    const Vec2 middle = 0.5F * (low + high);
    const std::array<std::pair<Vec2, Vec2>, 4> quarters{
        {{low, middle},
         {Vec2(middle.x, low.y), Vec2(high.x, middle.y)},
         {Vec2(low.x, middle.y), Vec2(middle.x, high.y)},
         {middle, high}}};
    std::array<double, 4> parts{};
    double fine = 0;
    for (size_t i = 0; i < 4; ++i) {
        parts[i] = midpoint_rule(quarters[i].first, quarters[i].second);
        fine += parts[i];
    }
    // 1e-5 in a bin is less than one of 60 000 draws. At the edges of densities the patches share
    // that error, and their number doubles with every halving.
    if (std::abs(fine - coarse) < std::ldexp(1e-5, -depth) || depth >= 8) return fine;
    double sum = 0;
    for (size_t i = 0; i < 4; ++i) {
        sum +=
            patch_probability(bsdf, wo, quarters[i].first, quarters[i].second, depth + 1, parts[i]);
    }
    return sum;
}

std::vector<double> bin_probabilities(const Bsdf& bsdf, const Direction& wo) {
    if (is_delta(bsdf)) return std::vector<double>(kThetaBins * kPhiBins, 0.0);
    std::vector<double> bins;
    const Vec2 step(kPiF / kThetaBins, 2 * kPiF / kPhiBins);
    for (int a = 0; a < kThetaBins; ++a) {
        for (int b = 0; b < kPhiBins; ++b) {
            const Vec2 low = step * Vec2(static_cast<float>(a), static_cast<float>(b));
            bins.push_back(patch_probability(bsdf, wo, low, low + step, 0, -1));
        }
    }
    return bins;
}

size_t bin_of(const Direction& w) {
    const Direction wi = bin_frame().to_local(w);
    const double theta = std::atan2(std::hypot(wi.x, wi.y), wi.z);
    double phi = std::atan2(wi.y, wi.x);
    if (phi < 0) phi += 2 * kPi;
    const int a = std::min(static_cast<int>(theta / kPi * kThetaBins), kThetaBins - 1);
    const int b = std::min(static_cast<int>(phi / (2 * kPi) * kPhiBins), kPhiBins - 1);
    return static_cast<size_t>(a * kPhiBins + b);
}

// Outcomes of draws: counts per patch of the sphere, then delta reflection, delta transmission,
// straight through, and none.
struct Outcome {
    std::vector<double> counts = std::vector<double>(kThetaBins * kPhiBins + 4, 0.0);
    double delta_reflected = 0;  // probabilities as sample() states them
    double delta_transmitted = 0;
};

Outcome draw(const Bsdf& bsdf, const Direction& wo, int draws, RandomStream& random) {
    constexpr size_t kFirst = kThetaBins * kPhiBins;
    Outcome outcome;
    const float q = straight_through_probability(bsdf, wo);
    for (int i = 0; i < draws; ++i) {
        BsdfSample s;
        if (random.next() < q) {
            outcome.counts[kFirst + 2] += 1;
        } else if (!sample(bsdf, wo, next_vec3(random), Carrying::kFlux, s)) {
            outcome.counts[kFirst + 3] += 1;
        } else if (!s.delta) {
            outcome.counts[bin_of(s.wi)] += 1;
        } else if (s.transmitted) {
            outcome.counts[kFirst + 1] += 1;
            outcome.delta_transmitted = s.pdf;
        } else {
            outcome.counts[kFirst] += 1;
            outcome.delta_reflected = s.pdf;
        }
    }
    return outcome;
}

}  // namespace

TEST_CASE("draws follow the density, and the density integrates to the share of draws" *
          doctest::test_suite("figures")) {
    constexpr int kDraws = 60000;
    RandomStream random(11, 0, 0, Purpose::kTest);
    const MaterialFamily& family = material_family();
    for (size_t i = 0; i < family.tests().size(); ++i) {
        const Bsdf bsdf = family.bsdf(i, 5);
        for (const Direction& wo :
             {direction_at(20, 35), direction_at(80, -130), direction_at(180 - 55, 200)}) {
            CAPTURE(family.tests()[i].name);
            CAPTURE(wo.z);
            std::vector<double> expected = bin_probabilities(bsdf, wo);
            double scattered = 0;
            for (const double p : expected) scattered += p;
            const Outcome outcome = draw(bsdf, wo, kDraws, random);
            const double q = straight_through_probability(bsdf, wo);
            const double nothing =
                1 - scattered - outcome.delta_reflected - outcome.delta_transmitted - q;
            // Quadrature over all bins: errors of 1e-5 with either sign in a few dozen bins.
            CHECK(nothing > -1e-3);
            if (family.tests()[i].complete) {
                CHECK(nothing < 1e-3);
                CHECK(outcome.counts.back() == 0);
            }
            expected.insert(
                expected.end(),
                {outcome.delta_reflected, outcome.delta_transmitted, q, std::max(nothing, 0.0)});
            for (double& p : expected) p *= kDraws;
            const auto likeliest = std::max_element(expected.begin(), expected.end());
            if (*likeliest > kDraws * (1 - 1e-6)) {  // only one outcome is possible
                CHECK(outcome.counts[static_cast<size_t>(likeliest - expected.begin())] == kDraws);
            } else {
                CHECK(chi_square_z(outcome.counts, expected) < kChiSquareLimit);
            }
        }
    }
}

TEST_CASE("a draw's weight and densities are those of eval and pdf") {
    RandomStream random(12, 0, 0, Purpose::kTest);
    const MaterialFamily& family = material_family();
    for (size_t i = 0; i < family.tests().size(); ++i) {
        const Bsdf bsdf = family.bsdf(i, 2);
        for (const Direction& wo : test_directions()) {
            for (int n = 0; n < 200; ++n) {
                BsdfSample s;
                if (!sample(bsdf, wo, next_vec3(random), Carrying::kRadiance, s)) continue;
                CAPTURE(family.tests()[i].name);
                CAPTURE(wo.z);
                CAPTURE(s.wi.z);
                REQUIRE(s.transmitted == (s.wi.z * wo.z < 0));
                REQUIRE(std::abs(glm::length(s.wi) - 1) < 1e-5);
                if (s.delta) continue;
                // The same functions of the same floats: only the order of products differs.
                REQUIRE(s.pdf == doctest::Approx(pdf(bsdf, wo, s.wi)).epsilon(1e-5));
                REQUIRE(s.pdf_reverse == doctest::Approx(pdf(bsdf, s.wi, wo)).epsilon(1e-5));
                const Spectrum f = eval(bsdf, wo, s.wi, Carrying::kRadiance);
                for (int j = 0; j < kSpectrumSize; ++j) {
                    REQUIRE(s.weight[j] * s.pdf ==
                            doctest::Approx(f[j] * std::abs(s.wi.z)).epsilon(1e-5));
                }
            }
        }
    }
}

TEST_CASE("a delta direction's reverse probability is that of the reverse direction") {
    RandomStream random(13, 0, 0, Purpose::kTest);
    const MaterialFamily& family = material_family();
    int ways_back = 0;
    for (size_t i = 0; i < family.tests().size(); ++i) {
        const Bsdf bsdf = family.bsdf(i, 2);
        for (const Direction& wo : test_directions()) {
            for (int n = 0; n < 50; ++n) {
                BsdfSample there;
                BsdfSample back;
                if (!sample(bsdf, wo, next_vec3(random), Carrying::kFlux, there)) continue;
                if (!there.delta) continue;
                if (!sample(bsdf, there.wi, next_vec3(random), Carrying::kFlux, back)) continue;
                if (!back.delta || back.transmitted != there.transmitted) continue;
                CAPTURE(family.tests()[i].name);
                CAPTURE(wo.z);
                ++ways_back;
                // Refracting there and back in floats: 1e-6 in the direction, more in F at grazing.
                REQUIRE(glm::length(back.wi - wo) < 1e-5);
                REQUIRE(there.pdf_reverse == doctest::Approx(back.pdf).epsilon(1e-4));
                REQUIRE(back.pdf_reverse == doctest::Approx(there.pdf).epsilon(1e-4));
            }
        }
    }
    CHECK(ways_back > 1000);
}

}  // namespace dapple
