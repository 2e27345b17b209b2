// A linear colour from 0 to 1 in one word, 10 bits for the square root of each channel: steps of
// 0.2 % at white and of 2 % at a hundredth of it.
#pragma once

#include <cmath>
#include <cstdint>

#include "math/vec.h"

namespace dapple {

class PackedColour {
  public:
    PackedColour() = default;
    explicit PackedColour(const Rgb& colour)
        : word_(code(colour.x) | code(colour.y) << 10U | code(colour.z) << 20U) {}

    Rgb colour() const { return Rgb(channel(0), channel(10), channel(20)); }

  private:
    static constexpr float kMost = 1023;

    static uint32_t code(float linear) {
        const float root = std::sqrt(glm::clamp(linear, 0.0F, 1.0F));
        return static_cast<uint32_t>(std::lround(kMost * root));
    }
    float channel(unsigned shift) const {
        return square(static_cast<float>(word_ >> shift & 1023U) * (1.0F / kMost));
    }

    uint32_t word_ = 0;
};

}  // namespace dapple
