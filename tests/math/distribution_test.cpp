#include "math/distribution.h"

#include <doctest/doctest.h>

#include <cmath>
#include <vector>

#include "base/random.h"
#include "chi_square.h"

namespace dapple {

namespace {

constexpr int kSamples = 200000;
const std::vector<double> kWeights = {0.0, 1.0, 3.0, 0.0, 0.5, 2.5, 0.0};  // sum 7

}  // namespace

TEST_CASE("a tabulated density integrates to one and is proportional to its weights") {
    const PiecewiseConstant density(kWeights, 2.0, 16.0);
    CHECK(density.integral() == doctest::Approx(7.0 * 2.0));  // bins are 2 wide
    double sum = 0;
    for (int bin = 0; bin < 7; ++bin) {
        const float middle = 3.0F + 2.0F * static_cast<float>(bin);
        sum += 2.0 * density.pdf(middle);
        CHECK(density.pdf(middle) ==
              doctest::Approx(kWeights[static_cast<size_t>(bin)] / 14.0).epsilon(1e-6));
    }
    CHECK(sum == doctest::Approx(1.0).epsilon(1e-6));
    CHECK(density.pdf(1.9F) == 0);
    CHECK(density.pdf(16.1F) == 0);
}

TEST_CASE("a tabulated density is sampled by inversion") {
    // Cumulative at the bins' edges 4, 6, 8, 10, 12, 14: 0, 1/7, 4/7, 4/7, 9/14, 1.
    const PiecewiseConstant density(kWeights, 2.0, 16.0);
    CHECK(density.sample(0.0F).x == doctest::Approx(4.0).epsilon(1e-6));
    CHECK(density.sample(1.0F / 14.0F).x == doctest::Approx(5.0).epsilon(1e-6));
    CHECK(density.sample(2.5F / 7.0F).x == doctest::Approx(7.0).epsilon(1e-6));
    CHECK(density.sample(8.5F / 14.0F).x == doctest::Approx(11.0).epsilon(1e-6));
    CHECK(density.sample(kOneMinusEpsilon).x == doctest::Approx(14.0).epsilon(1e-6));
}

TEST_CASE("samples of a tabulated density follow it and report its density") {
    const PiecewiseConstant density(kWeights, 2.0, 16.0);
    std::vector<double> counts(28, 0.0);
    std::vector<double> expected;
    RandomStream random(3, 0, 0, Purpose::kTest);
    for (int i = 0; i < kSamples; ++i) {
        const PiecewiseConstant::Sample s = density.sample(random.next());
        REQUIRE(s.pdf > 0);
        REQUIRE(s.pdf == density.pdf(s.x));
        ++counts[static_cast<size_t>((s.x - 2) * 2)];
    }
    for (int quarter = 0; quarter < 28; ++quarter) {
        expected.push_back(kSamples * kWeights[static_cast<size_t>(quarter / 4)] / 28.0);
    }
    // Bins without weight stay empty; their expected count of 0 would be a divisor.
    for (size_t i = 0; i < counts.size(); ++i) {
        if (expected[i] == 0) CHECK(counts[i] == 0);
    }
    CHECK(chi_square_z(counts, expected) < kChiSquareLimit);
}

TEST_CASE("indices are drawn with their probabilities, and never one without weight") {
    const Discrete choice(kWeights);
    CHECK(choice.size() == 7);
    std::vector<double> counts(7, 0.0);
    std::vector<double> expected;
    RandomStream random(4, 0, 0, Purpose::kTest);
    for (int i = 0; i < kSamples; ++i) {
        const int k = choice.sample(random.next());
        REQUIRE(choice.probability(k) > 0);
        ++counts[static_cast<size_t>(k)];
    }
    double total = 0;
    for (int k = 0; k < 7; ++k) {
        total += choice.probability(k);
        CHECK(choice.probability(k) ==
              doctest::Approx(kWeights[static_cast<size_t>(k)] / 7).epsilon(1e-6));
        expected.push_back(kSamples * kWeights[static_cast<size_t>(k)] / 7);
    }
    CHECK(total == doctest::Approx(1.0).epsilon(1e-6));
    CHECK(chi_square_z(counts, expected) < kChiSquareLimit);
}

TEST_CASE("the ends of the unit interval draw the first and the last index that has weight") {
    const Discrete choice(kWeights);
    CHECK(choice.sample(0.0F) == 1);
    CHECK(choice.sample(kOneMinusEpsilon) == 5);
    CHECK(Discrete(std::vector<double>{2.0}).sample(0.7F) == 0);
}

}  // namespace dapple
