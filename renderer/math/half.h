// 16-bit floats (IEEE 754-2019, binary16).
#pragma once

#include <algorithm>
#include <cstdint>
#include <glm/gtc/packing.hpp>

namespace dapple {

inline constexpr float kLargestHalf = 65504;

// The nearest one; what is too large becomes the largest.
inline uint16_t half_of(float x) {
    return glm::packHalf1x16(std::clamp(x, -kLargestHalf, kLargestHalf));
}

inline float float_of_half(uint16_t half) {
    return glm::unpackHalf1x16(half);
}

}  // namespace dapple
