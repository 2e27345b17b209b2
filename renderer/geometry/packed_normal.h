// A unit vector, or zero, in eight bytes: 21 bits for each coordinate, in steps of 2^-20. The error
// of its direction is at most 1e-6.
#pragma once

#include <cmath>
#include <cstdint>

#include "math/four.h"

namespace dapple {

class PackedNormal {
  public:
    PackedNormal() = default;
    explicit PackedNormal(const Vec3& n) {
        const uint64_t bits = packed(n.x) | packed(n.y) << 21U | packed(n.z) << 42U;
        low_ = static_cast<uint32_t>(bits);
        high_ = static_cast<uint32_t>(bits >> 32U);
    }

    Vec3 unpacked() const { return three(coordinates()); }
    Four coordinates() const {
        using Words = uint64_t __attribute__((vector_size(32)));
        using Ints = int32_t __attribute__((vector_size(16)));
        const uint64_t bits = uint64_t{high_} << 32U | low_;
        const Words apart = Words{bits, bits, bits, 0} >> Words{0, 21, 42, 0};
        // Shifting the 21 bits of each coordinate to the top of a word and down extends their sign.
        const Ints top = __builtin_convertvector(apart, Ints) << 11;
        return __builtin_convertvector(top >> 11, Four) * (1 / kScale);
    }
    bool is_zero() const { return (low_ | high_) == 0; }

  private:
    static constexpr float kScale = (1 << 20) - 1;

    static uint64_t packed(float x) {
        return static_cast<uint64_t>(std::lrint(x * kScale)) & 0x1FFFFF;
    }

    uint32_t low_ = 0, high_ = 0;
};

}  // namespace dapple
