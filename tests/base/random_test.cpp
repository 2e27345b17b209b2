#include "base/random.h"

#include <doctest/doctest.h>

#include <cmath>
#include <functional>
#include <set>
#include <utility>
#include <vector>

#include "chi_square.h"

namespace dapple {

namespace {

constexpr int kDraws = 1 << 18;

RandomStream stream(uint64_t seed, uint32_t pass, uint64_t index) {
    return RandomStream(seed, pass, index, Purpose::kTest);
}

// Chi-square of pairs (a, b), each in 16 bins, over draws i = 0 … kDraws - 1.
double z_of_pairs(const std::function<std::pair<float, float>(int)>& draw) {
    std::vector<double> counts(256, 0.0);
    for (int i = 0; i < kDraws; ++i) {
        const auto [a, b] = draw(i);
        ++counts[static_cast<size_t>(a * 16) * 16 + static_cast<size_t>(b * 16)];
    }
    return chi_square_z_uniform(counts);
}

}  // namespace

TEST_CASE("one stream is uniform in [0, 1)") {
    std::vector<double> counts(1024, 0.0);
    double sum = 0;
    RandomStream random = stream(1, 0, 0);
    for (int i = 0; i < kDraws; ++i) {
        const float u = random.next();
        REQUIRE_UNARY(u >= 0.0F && u < 1.0F);
        ++counts[static_cast<size_t>(u * 1024)];
        sum += u;
    }
    CHECK(chi_square_z_uniform(counts) < kChiSquareLimit);
    // Mean of n uniform numbers: standard error 1/sqrt(12 n) = 5.6e-4.
    CHECK(std::abs(sum / kDraws - 0.5) < 4 / std::sqrt(12.0 * kDraws));
}

TEST_CASE("successive numbers of one stream are independent") {
    RandomStream random = stream(2, 0, 0);
    CHECK(z_of_pairs([&](int) {
              const float a = random.next();
              return std::pair(a, random.next());
          }) < kChiSquareLimit);
}

TEST_CASE("every bit of a stream is set half of the time") {
    std::vector<int> set(32, 0);
    RandomStream random = stream(3, 0, 0);
    for (int i = 0; i < kDraws; ++i) {
        const uint32_t bits = random.next_bits();
        for (size_t b = 0; b < 32; ++b) set[b] += static_cast<int>((bits >> b) & 1U);
    }
    // Binomial: standard deviation sqrt(n)/2 = 256. One of 32 bits exceeds 4 of them with
    // a probability of 1 : 500.
    for (const int n : set) CHECK(std::abs(n - kDraws / 2) < 4 * 256);
}

TEST_CASE("first numbers of neighbouring streams are uniform and independent") {
    // Neighbours in index, pass, seed and purpose: walks of neighbouring pixels must not agree.
    const auto first = [](uint64_t seed, uint32_t pass, uint64_t index, Purpose purpose) {
        return RandomStream(seed, pass, index, purpose).next();
    };
    constexpr Purpose kTest = Purpose::kTest;
    CHECK(z_of_pairs([&](int i) {
              const auto k = static_cast<uint64_t>(i);
              return std::pair(first(1, 0, k, kTest), first(1, 0, k + 1, kTest));
          }) < kChiSquareLimit);
    CHECK(z_of_pairs([&](int i) {
              const auto k = static_cast<uint64_t>(i);
              return std::pair(first(1, 7, k, kTest), first(1, 8, k, kTest));
          }) < kChiSquareLimit);
    CHECK(z_of_pairs([&](int i) {
              const auto k = static_cast<uint32_t>(i);
              return std::pair(first(1, k, 9, kTest), first(2, k, 9, kTest));
          }) < kChiSquareLimit);
    CHECK(z_of_pairs([&](int i) {
              const auto k = static_cast<uint64_t>(i);
              return std::pair(first(1, 0, k, Purpose::kCameraWalk),
                               first(1, 0, k, Purpose::kLightWalk));
          }) < kChiSquareLimit);
}

TEST_CASE("later numbers of neighbouring streams are independent") {
    CHECK(z_of_pairs([](int i) {
              RandomStream a = stream(4, 0, static_cast<uint64_t>(i));
              RandomStream b = stream(4, 0, static_cast<uint64_t>(i) + 1);
              for (int k = 0; k < 5; ++k) {
                  a.next_bits();
                  b.next_bits();
              }
              return std::pair(a.next(), b.next());
          }) < kChiSquareLimit);
}

TEST_CASE("no two names lead to the same stream") {
    // 64 bits of 24 000 streams: two of them are equal with a probability of 1 : 10^11.
    std::set<uint64_t> starts;
    for (uint64_t seed = 0; seed < 20; ++seed) {
        for (uint32_t pass = 0; pass < 20; ++pass) {
            for (uint64_t index = 0; index < 20; ++index) {
                for (const Purpose p :
                     {Purpose::kCameraWalk, Purpose::kLightWalk, Purpose::kTest}) {
                    RandomStream random(seed, pass, index, p);
                    const uint64_t high = random.next_bits();
                    starts.insert((high << 32U) | random.next_bits());
                }
            }
        }
    }
    CHECK(starts.size() == 20 * 20 * 20 * 3);
}

TEST_CASE("two streams of the same name give the same numbers") {
    RandomStream a = stream(5, 6, 7);
    RandomStream b = stream(5, 6, 7);
    for (int i = 0; i < 100; ++i) CHECK(a.next_bits() == b.next_bits());
}

TEST_CASE("the largest bits give a number below one") {
    CHECK(uniform_from_bits(0xffffffffU) < 1.0F);
    CHECK(uniform_from_bits(0xffffffffU) == kOneMinusEpsilon);
    CHECK(uniform_from_bits(0) == 0.0F);
    CHECK(kOneMinusEpsilon < 1.0F);
}

}  // namespace dapple
