// Low-discrepancy points, each computed from its index.
//
// Owen-scrambled Sobol points in up to four dimensions, scrambled and shuffled by hashing
// (Burley 2020, "Practical hash-based Owen scrambling"; hash of Laine and Karras 2011). Another
// `seed` gives four more dimensions, which the shuffle makes independent of the first.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace dapple {

// The sequence named by `seed`, dimensions 0 … 3, each in [0, 1).
class SobolOwen4d {
  public:
    explicit SobolOwen4d(uint32_t seed);
    std::array<float, 4> point(uint32_t index) const;

  private:
    uint32_t shuffle_;
    std::array<uint32_t, 4> scramble_{};
};

// One point of that sequence.
std::array<float, 4> sobol_owen_4d(uint32_t index, uint32_t seed);

// Additive recurrence on the golden ratio, frac(offset + index φ): a 1-D sequence whose every
// prefix is well spread.
double golden_sequence(uint64_t index, double offset);

// The same in any number of dimensions, for points whose number is not known beforehand:
//   x_i(n) = frac(1/2 + (n + 1) φ⁻ⁱ), i = 1 … d,  φ > 1 with φ^(d+1) = φ + 1              (E185)
// Source: Roberts 2018, "The unreasonable effectiveness of quasirandom sequences". φ is the golden
// ratio for d = 1 and the plastic number for d = 2.
class AdditiveSequence {
  public:
    explicit AdditiveSequence(size_t dimensions);
    std::vector<double> point(uint64_t index) const;  // each coordinate in [0, 1)
    const std::vector<double>& steps() const { return steps_; }

  private:
    std::vector<double> steps_;  // φ⁻ⁱ
};

}  // namespace dapple
