// Low-discrepancy points, each computed from its index.
//
// Owen-scrambled Sobol points in up to four dimensions, scrambled and shuffled by hashing
// (Burley 2020, "Practical hash-based Owen scrambling"; hash of Laine and Karras 2011). Another
// `seed` gives four more dimensions, which the shuffle makes independent of the first.
#pragma once

#include <array>
#include <cstdint>

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

}  // namespace dapple
