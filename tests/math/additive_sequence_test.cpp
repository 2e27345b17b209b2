#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "math/sequences.h"

namespace dapple {

TEST_CASE("the additive sequence has the published constants") {
    // Roberts 2018, from memory: φ is 1.61803398874989 for one dimension, 1.32471795724475 for two
    // (the plastic number) and 1.22074408460576 for three.
    const double published[] = {1.61803398874989, 1.32471795724475, 1.22074408460576};
    for (size_t d = 1; d <= 3; ++d) {
        const AdditiveSequence sequence(d);
        REQUIRE(sequence.steps().size() == d);
        const double phi = published[d - 1];
        for (size_t i = 0; i < d; ++i) {
            // The constants are printed to 1e-14.
            CHECK(sequence.steps()[i] ==
                  doctest::Approx(std::pow(phi, -static_cast<double>(i + 1))).epsilon(1e-13));
        }
    }
}

TEST_CASE("the first points in the plane are the published ones") {
    // Roberts 2018, from memory: steps 0.7548776662 and 0.5698402910, from (0.5, 0.5).
    const AdditiveSequence sequence(2);
    const auto first = sequence.point(0);
    CHECK(first[0] == doctest::Approx(0.2548776662).epsilon(1e-9));
    CHECK(first[1] == doctest::Approx(0.0698402910).epsilon(1e-8));
    const auto second = sequence.point(1);
    CHECK(second[0] == doctest::Approx(0.0097553324).epsilon(1e-7));
    CHECK(second[1] == doctest::Approx(0.6396805820).epsilon(1e-9));
}

TEST_CASE("on a line the gaps between points have at most three lengths") {
    // Sós 1958: the three-gap theorem, for multiples of any number.
    const AdditiveSequence sequence(1);
    for (const size_t count : {7U, 50U, 300U}) {
        std::vector<double> x;
        for (size_t i = 0; i < count; ++i) x.push_back(sequence.point(i)[0]);
        std::sort(x.begin(), x.end());
        std::vector<double> lengths;
        for (size_t i = 0; i < count; ++i) {
            const double gap = i + 1 < count ? x[i + 1] - x[i] : 1 + x[0] - x[i];
            const bool is_known = std::any_of(lengths.begin(), lengths.end(), [&](double l) {
                return std::abs(l - gap) < 1e-9;  // rounding of the points
            });
            if (!is_known) lengths.push_back(gap);
        }
        CHECK(lengths.size() <= 3);
    }
}

TEST_CASE("in four dimensions no point of 256 has another nearer than a third of its share") {
    const AdditiveSequence sequence(4);
    std::vector<std::vector<double>> points;
    for (uint64_t i = 0; i < 256; ++i) points.push_back(sequence.point(i));
    double nearest = 1;
    for (size_t a = 0; a < points.size(); ++a) {
        for (size_t b = 0; b < a; ++b) {
            double most = 0;  // along an axis, on the torus
            for (size_t d = 0; d < 4; ++d) {
                const double distance = std::abs(points[a][d] - points[b][d]);
                most = std::max(most, std::min(distance, 1 - distance));
            }
            nearest = std::min(nearest, most);
        }
    }
    // 256 points have cells of a quarter's side; points drawn by chance come as near as 0.03.
    CHECK(nearest > 0.25 / 3);
}

}  // namespace dapple
