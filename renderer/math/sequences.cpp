#include "math/sequences.h"

#include <cmath>

#include "base/random.h"

namespace dapple {

namespace {

constexpr uint32_t reverse_bits(uint32_t x) {
    x = (x << 16U) | (x >> 16U);
    x = ((x & 0x00ff00ffU) << 8U) | ((x & 0xff00ff00U) >> 8U);
    x = ((x & 0x0f0f0f0fU) << 4U) | ((x & 0xf0f0f0f0U) >> 4U);
    x = ((x & 0x33333333U) << 2U) | ((x & 0xccccccccU) >> 2U);
    return ((x & 0x55555555U) << 1U) | ((x & 0xaaaaaaaaU) >> 1U);
}

// Owen scrambling of the reversed digits: a hash whose bit k depends on lower bits only.
constexpr uint32_t laine_karras(uint32_t x, uint32_t seed) {
    x += seed;
    x ^= x * 0x6c50b47cU;
    x ^= x * 0xb82f1e52U;
    x ^= x * 0xc7afe638U;
    x ^= x * 0x8d22f6e6U;
    return x;
}

// Direction numbers from the primitive polynomials and initial values of Joe and Kuo 2008 for
// dimensions 2 to 4: (s, a, m) = (1, 0, {1}), (2, 1, {1, 3}), (3, 1, {1, 3, 1}).
struct DirectionNumbers {
    uint32_t v[4][32];
};

constexpr DirectionNumbers make_direction_numbers() {
    DirectionNumbers numbers{};
    for (uint32_t i = 0; i < 32; ++i) numbers.v[0][i] = 1U << (31U - i);
    constexpr uint32_t kDegree[3] = {1, 2, 3};
    constexpr uint32_t kPolynomial[3] = {0, 1, 1};
    constexpr uint32_t kInitial[3][3] = {{1, 0, 0}, {1, 3, 0}, {1, 3, 1}};
    for (uint32_t d = 0; d < 3; ++d) {
        uint32_t* v = numbers.v[d + 1];
        const uint32_t s = kDegree[d];
        for (uint32_t i = 0; i < s; ++i) v[i] = kInitial[d][i] << (31U - i);
        for (uint32_t i = s; i < 32; ++i) {
            v[i] = v[i - s] ^ (v[i - s] >> s);
            for (uint32_t k = 1; k < s; ++k) {
                if ((kPolynomial[d] >> (s - 1 - k)) & 1U) v[i] ^= v[i - k];
            }
        }
    }
    return numbers;
}

constexpr DirectionNumbers kNumbers = make_direction_numbers();

// The points are linear in the bits of the index: one table per byte of it, all dimensions at once.
// The bits of index and points are both reversed, as the scrambling needs them.
struct ByteTables {
    uint32_t x[4][256][4];
};

constexpr ByteTables make_byte_tables() {
    ByteTables tables{};
    for (uint32_t byte = 0; byte < 4; ++byte) {
        for (uint32_t value = 0; value < 256; ++value) {
            for (uint32_t bit = 0; bit < 8; ++bit) {
                if (!((value >> bit) & 1U)) continue;
                for (uint32_t d = 0; d < 4; ++d) {
                    tables.x[byte][value][d] ^= reverse_bits(kNumbers.v[d][31 - 8 * byte - bit]);
                }
            }
        }
    }
    return tables;
}

alignas(64) constexpr ByteTables kTables = make_byte_tables();

}  // namespace

SobolOwen4d::SobolOwen4d(uint32_t seed) : shuffle_(static_cast<uint32_t>(mix_bits(seed, 99))) {
    for (uint32_t d = 0; d < 4; ++d) scramble_[d] = static_cast<uint32_t>(mix_bits(seed, d));
}

std::array<float, 4> SobolOwen4d::point(uint32_t index) const {
    const uint32_t shuffled = laine_karras(reverse_bits(index), shuffle_);  // bits reversed
    const auto* const lowest = kTables.x[0][shuffled & 255U];
    const auto* const second = kTables.x[1][(shuffled >> 8U) & 255U];
    const auto* const third = kTables.x[2][(shuffled >> 16U) & 255U];
    const auto* const highest = kTables.x[3][shuffled >> 24U];
    std::array<float, 4> point{};
    for (uint32_t d = 0; d < 4; ++d) {
        const uint32_t x = lowest[d] ^ second[d] ^ third[d] ^ highest[d];
        point[d] = uniform_from_bits(reverse_bits(laine_karras(x, scramble_[d])));
    }
    return point;
}

std::array<float, 4> sobol_owen_4d(uint32_t index, uint32_t seed) {
    return SobolOwen4d(seed).point(index);
}

double golden_sequence(uint64_t index, double offset) {
    constexpr double kGolden = 0.61803398874989484820;
    const double x = offset + static_cast<double>(index) * kGolden;
    return x - std::floor(x);
}

AdditiveSequence::AdditiveSequence(size_t dimensions) {
    const double power = 1.0 / static_cast<double>(dimensions + 1);
    double phi = 2;
    // φ = (1 + φ)^(1/(d+1)); each step shrinks the error at least to a third.
    for (int i = 0; i < 40; ++i) phi = std::pow(1 + phi, power);
    for (size_t i = 1; i <= dimensions; ++i)
        steps_.push_back(std::pow(phi, -static_cast<double>(i)));
}

std::vector<double> AdditiveSequence::point(uint64_t index) const {
    std::vector<double> point;
    for (const double step : steps_) {
        const double x = 0.5 + static_cast<double>(index + 1) * step;
        point.push_back(x - std::floor(x));
    }
    return point;
}

}  // namespace dapple
