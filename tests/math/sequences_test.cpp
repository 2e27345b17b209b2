#include "math/sequences.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "chi_square.h"

namespace dapple {

namespace {

constexpr uint32_t kSeeds[] = {0, 1, 0xdeadbeef};

std::vector<std::array<float, 4>> points(uint32_t count, uint32_t seed) {
    std::vector<std::array<float, 4>> p;
    for (uint32_t i = 0; i < count; ++i) p.push_back(sobol_owen_4d(i, seed));
    return p;
}

// Returns which of 2^bits equal parts of [0, 1) contains x.
size_t part(float x, int bits) {
    return static_cast<size_t>(std::ldexp(x, bits));
}

}  // namespace

TEST_CASE("every coordinate of the first 2^m points is stratified into 2^m parts") {
    for (const uint32_t seed : kSeeds) {
        for (int m = 0; m <= 10; ++m) {
            for (size_t d = 0; d < 4; ++d) {
                std::vector<int> count(size_t{1} << m, 0);
                for (const auto& p : points(1U << m, seed)) ++count[part(p[d], m)];
                CHECK(std::all_of(count.begin(), count.end(), [](int n) { return n == 1; }));
            }
        }
    }
}

TEST_CASE("the first two coordinates put one point into every elementary interval") {
    // Sobol 1967: they are a (0, 2)-sequence in base 2, and Owen scrambling keeps that.
    constexpr int kM = 8;
    for (const uint32_t seed : kSeeds) {
        const auto all = points(1U << kM, seed);
        for (int a = 0; a <= kM; ++a) {
            std::vector<int> count(size_t{1} << kM, 0);
            for (const auto& p : all) ++count[(part(p[0], a) << (kM - a)) + part(p[1], kM - a)];
            CHECK(std::all_of(count.begin(), count.end(), [](int n) { return n == 1; }));
        }
    }
}

TEST_CASE("all four coordinates put eight points into every elementary interval of eight's size") {
    // t = Σ (degree of the primitive polynomial - 1) = 0 + 0 + 1 + 2 for dimensions 1 to 4
    // (Niederreiter 1992, theorem 4.49): boxes of volume 2^(t-m) hold 2^t of 2^m points.
    constexpr int kM = 9;
    constexpr int kT = 3;
    for (const uint32_t seed : kSeeds) {
        const auto all = points(1U << kM, seed);
        for (int a = 0; a <= kM - kT; ++a) {
            for (int b = 0; a + b <= kM - kT; ++b) {
                for (int c = 0; a + b + c <= kM - kT; ++c) {
                    const int d = kM - kT - a - b - c;
                    std::vector<int> count(size_t{1} << (kM - kT), 0);
                    for (const auto& p : all) {
                        size_t cell = part(p[0], a);
                        cell = (cell << b) + part(p[1], b);
                        cell = (cell << c) + part(p[2], c);
                        ++count[(cell << d) + part(p[3], d)];
                    }
                    CHECK(std::all_of(count.begin(), count.end(), [](int n) { return n == 8; }));
                }
            }
        }
    }
}

TEST_CASE("a point of the sequence is uniform over seeds, alone and together with the next point") {
    // Otherwise an estimate from few points would be biased. Chi-square over 16 384 seeds.
    std::vector<double> alone(64, 0.0);
    std::vector<double> pairs(64, 0.0);
    std::vector<double> dimensions(64, 0.0);
    for (uint32_t seed = 0; seed < 16384; ++seed) {
        const auto p = sobol_owen_4d(5, seed);
        const auto other = sobol_owen_4d(5, seed + 1000000);
        ++alone[part(p[2], 6)];
        ++pairs[(part(p[0], 3) << 3) + part(other[0], 3)];
        ++dimensions[(part(p[1], 3) << 3) + part(p[3], 3)];
    }
    CHECK(chi_square_z_uniform(alone) < kChiSquareLimit);
    CHECK(chi_square_z_uniform(pairs) < kChiSquareLimit);
    CHECK(chi_square_z_uniform(dimensions) < kChiSquareLimit);
}

TEST_CASE("every coordinate stays below one") {
    for (const auto& p : points(65536, 7)) {
        for (const float x : p) CHECK_UNARY(x >= 0.0F && x < 1.0F);
    }
}

TEST_CASE("a smooth integral by the sequence is far nearer than by random points") {
    // ∫ Π 2x dx = 1 over four dimensions. The standard deviation of the integrand is
    // sqrt((4/3)^4 - 1) = 1.47: 4096 random points leave 0.023.
    for (const uint32_t seed : kSeeds) {
        double sum = 0;
        for (const auto& p : points(4096, seed)) sum += 16.0 * p[0] * p[1] * p[2] * p[3];
        CHECK(std::abs(sum / 4096 - 1) < 0.023 / 20);
    }
}

TEST_CASE("the golden sequence leaves no large gap and no needlessly small one") {
    // Three-distance theorem (Sos 1958) for the golden ratio: gaps of N points within 0.447/N and
    // 1.894/N.
    for (const uint64_t n : {2U, 10U, 100U, 1000U, 10000U}) {
        std::vector<double> x;
        for (uint64_t i = 0; i < n; ++i) x.push_back(golden_sequence(i, 0.3));
        std::sort(x.begin(), x.end());
        double largest = x.front() + 1 - x.back();
        double least = largest;
        for (size_t i = 1; i < x.size(); ++i) {
            largest = std::max(largest, x[i] - x[i - 1]);
            least = std::min(least, x[i] - x[i - 1]);
        }
        CHECK(largest * static_cast<double>(n) < 1.9);
        CHECK(least * static_cast<double>(n) > 0.44);
    }
}

}  // namespace dapple
