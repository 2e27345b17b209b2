#include "judge/tones.h"

#include <doctest/doctest.h>

#include <cmath>

#include "known_regions.h"

using namespace dapple;
using namespace dapple::test;

namespace {

constexpr double kWhite = 100;

}  // namespace

TEST_CASE("shares of deep shadow and clipping are those that were painted") {
    const RegionImage region = region_of(80, 40, [](int x, int) {
        return x < 20 ? 1.2 * kWhite : x < 60 ? kWhite / 65 : kWhite / 63;
    });
    const Tones tones = measure_tones(region, kWhite);
    CHECK(*tones.clipped == doctest::Approx(0.25));
    CHECK(*tones.deep_shadow == doctest::Approx(0.5));
    CHECK(*tones.clipped.error == 0);
}

TEST_CASE("grain does not make black pixels") {
    RegionImage region = region_of(320, 240, [](int, int) { return kWhite / 32; });
    add_sparse_hits(region, 0.3);  // two in five pixels have no light at all
    const Tones tones = measure_tones(region, kWhite);
    CHECK(*tones.deep_shadow < 0.03);  // a stop from the threshold, on blocks with 20 % of noise
}

TEST_CASE("the error of a share is its spread between films of other random numbers") {
    constexpr int kFilms = 30;
    double sum = 0;
    double squares = 0;
    double error = 0;
    for (uint32_t seed = 0; seed < kFilms; ++seed) {
        // A ramp of four stops over the threshold of clipping.
        RegionImage region =
            region_of(160, 120, [](int x, int) { return kWhite * std::exp2((x - 80.0) / 40); });
        add_noise(region, 0.15, seed);
        const Tones tones = measure_tones(region, kWhite);
        sum += *tones.clipped / kFilms;
        squares += *tones.clipped * *tones.clipped / kFilms;
        error += *tones.clipped.error / kFilms;
    }
    CHECK(sum == doctest::Approx(0.5).epsilon(0.02));
    // A spread of 30 is known to 13 %. The two halves have more noise than their mean has.
    const double spread = std::sqrt(squares - sum * sum);
    CHECK(error > 0.8 * spread);
    CHECK(error < 2 * spread);
}

TEST_CASE("after one pass shares are not known yet") {
    RegionImage region = region_of(20, 20, [](int, int) { return 1.0; });
    region.noise_known = false;
    CHECK(measure_tones(region, kWhite).clipped.why == kNotKnownYet);
}
