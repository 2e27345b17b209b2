#include "judge/luminance_statistics.h"

#include <doctest/doctest.h>

#include <cmath>
#include <numeric>

using namespace dapple;

TEST_CASE("quantiles are linear between sorted values") {
    // Type 7 of Hyndman and Fan 1996: 1 + 0.25 · 3 for the lower quartile of 1 2 3 4.
    const std::vector<double> sorted = {1, 2, 3, 4};
    CHECK(quantile(sorted, 0) == 1);
    CHECK(quantile(sorted, 0.25) == doctest::Approx(1.75));
    CHECK(quantile(sorted, 0.5) == doctest::Approx(2.5));
    CHECK(quantile(sorted, 1) == 4);
    CHECK(quantile({}, 0.5) == 0);
}

TEST_CASE("luminance statistics of the numbers 0 to 100") {
    std::vector<double> values(101);
    std::iota(values.rbegin(), values.rend(), 0.0);  // not sorted on the way in
    const LuminanceStatistics s = make_luminance_statistics(values);
    CHECK(s.min == 0);
    CHECK(s.max == 100);
    CHECK(s.mean == doctest::Approx(50));
    CHECK(s.median == doctest::Approx(50));
    CHECK(s.p01 == doctest::Approx(1));
    CHECK(s.p05 == doctest::Approx(5));
    CHECK(s.p95 == doctest::Approx(95));
    CHECK(s.p99 == doctest::Approx(99));
}

TEST_CASE("the histogram counts thirds of a stop under and over white") {
    const double white = 37;
    std::vector<double> values;
    // The middle of every bin once, no light, and one value beyond each end.
    for (int bin = 0; bin < StopsStatistics::kBins; ++bin) {
        values.push_back(white * std::exp2(-12 + (bin + 0.5) / 3));
    }
    values.push_back(0);
    values.push_back(white * std::exp2(-20));
    values.push_back(white * std::exp2(9));
    const StopsStatistics s = make_stops_statistics(values, white);
    const double one = 1.0 / static_cast<double>(values.size());
    CHECK(s.histogram.front() == doctest::Approx(3 * one));
    CHECK(s.histogram.back() == doctest::Approx(2 * one));
    for (size_t i = 1; i + 1 < s.histogram.size(); ++i) {
        CHECK(s.histogram[i] == doctest::Approx(one));
    }
    CHECK(std::accumulate(s.histogram.begin(), s.histogram.end(), 0.0) == doctest::Approx(1));
}

TEST_CASE("clipping begins exactly at white, saturation half a stop over, shadow six under") {
    const auto stops = [](double y) { return make_stops_statistics({y}, 1.0); };
    CHECK(stops(1.0).clipped_share == 1);
    CHECK(stops(std::nextafter(1.0, 0.0)).clipped_share == 0);
    CHECK(stops(1.4143).saturated_share == 1);  // √2 = 1.41421…
    CHECK(stops(1.4141).saturated_share == 0);
    CHECK(stops(1.0 / 64).deep_shadow_share == 0);
    CHECK(stops(0.999 / 64).deep_shadow_share == 1);
    CHECK(stops(0).deep_shadow_share == 1);
}

TEST_CASE("no pixels give zeros") {
    CHECK(make_luminance_statistics({}).mean == 0);
    CHECK(make_stops_statistics({}, 1.0).clipped_share == 0);
}
