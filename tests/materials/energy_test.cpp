// No material adds light, and lossless ones keep all of it (white furnace).
#include <doctest/doctest.h>

#include "materials/all_materials.h"

namespace dapple {

namespace {

struct MeanAndError {
    double mean = 0;
    double error = 0;
};

// Sums of draws of a spectrum, and of its mean over the wavelengths.
class Tally {
  public:
    void add(const Spectrum& w) {
        for (int j = 0; j < kSpectrumSize; ++j) add(j, w[j]);
        add(kSpectrumSize, w.mean());
        ++count_;
    }
    // Channel 8 is the mean over wavelengths.
    MeanAndError channel(int j) const {
        const double mean = sums_[j] / count_;
        const double variance = std::max(squares_[j] / count_ - mean * mean, 0.0);
        return {mean, std::sqrt(variance / count_)};
    }

  private:
    void add(int j, double x) {
        sums_[j] += x;
        squares_[j] += x * x;
    }
    double sums_[kSpectrumSize + 1]{};
    double squares_[kSpectrumSize + 1]{};
    double count_ = 0;
};

// Flux that leaves per flux that arrives along wo, straight through and scattered. The draws are
// shared equally by the eight heroes, as in a pass.
Tally flux_back(size_t i, const Direction& wo, int draws_per_hero, RandomStream& random) {
    Tally tally;
    for (int hero = 0; hero < kSpectrumSize; ++hero) {
        const Bsdf bsdf = material_family().bsdf(i, hero);
        const float q = straight_through_probability(bsdf, wo);
        for (int n = 0; n < draws_per_hero; ++n) {
            BsdfSample s;
            if (random.next() < q) {
                tally.add(straight_through(bsdf, wo) / q);
            } else if (sample(bsdf, wo, next_vec3(random), Carrying::kFlux, s)) {
                tally.add(s.weight);
            } else {
                tally.add(Spectrum(0.0F));
            }
        }
    }
    return tally;
}

// 4 standard errors, not 3.3: there are about 200 sets of draws, and a right program should pass
// with nearly any seed. 2e-4 is the error of the albedo tables and their linear interpolation.
double allowed(const MeanAndError& m) {
    return 4 * m.error + 2e-4;
}

void check_energy(int draws_per_hero, double largest_error) {
    RandomStream random(31, 0, 0, Purpose::kTest);
    const std::vector<TestMaterial>& tests = material_family().tests();
    for (size_t i = 0; i < tests.size(); ++i) {
        for (const Direction& wo : test_directions()) {
            CAPTURE(tests[i].name);
            CAPTURE(wo.z);
            const Tally back = flux_back(i, wo, draws_per_hero, random);
            for (int j = 0; j <= kSpectrumSize; ++j) {
                const MeanAndError m = back.channel(j);
                CHECK(m.mean < 1 + allowed(m));
                if (tests[i].lossless) CHECK(m.mean > 1 - allowed(m));
            }
            CHECK(back.channel(kSpectrumSize).error < largest_error);
        }
    }
}

}  // namespace

TEST_CASE("no material returns more than it gets, and lossless ones return exactly that" *
          doctest::test_suite("figures")) {
    check_energy(2000, 6e-3);
}

TEST_CASE("no material returns more than it gets, to a tenth of a per cent" *
          doctest::test_suite("slow")) {
    check_energy(60000, 1e-3);
}

}  // namespace dapple
