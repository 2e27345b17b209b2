// A unit vector, or zero, in eight bytes: 21 bits for each coordinate, in steps of 2^-20. Its
// direction is off by at most 1e-6.
#pragma once

#include <cmath>
#include <cstdint>

#include "math/vec.h"

namespace dapple {

class PackedNormal {
  public:
    PackedNormal() = default;
    explicit PackedNormal(const Vec3& n) {
        const uint64_t bits = packed(n.x) | packed(n.y) << 21U | packed(n.z) << 42U;
        low_ = static_cast<uint32_t>(bits);
        high_ = static_cast<uint32_t>(bits >> 32U);
    }

    Vec3 unpacked() const {
        const uint64_t bits = uint64_t{high_} << 32U | low_;
        return Vec3(coordinate(bits), coordinate(bits >> 21U), coordinate(bits >> 42U));
    }

  private:
    static constexpr float kScale = (1 << 20) - 1;

    static uint64_t packed(float x) {
        return static_cast<uint64_t>(std::lrint(x * kScale)) & 0x1FFFFF;
    }
    static float coordinate(uint64_t bits) {
        // Its 21 bits to the top of a word and down again, with their sign.
        const auto top = static_cast<int32_t>(static_cast<uint32_t>(bits) << 11U);
        return static_cast<float>(top >> 11) * (1 / kScale);
    }

    uint32_t low_ = 0, high_ = 0;
};

}  // namespace dapple
