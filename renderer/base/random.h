// Random numbers made from counters, so that any walk can be run again alone and the film does not
// depend on which thread ran a walk.
//
// A stream has the name (seed, pass, index, purpose). The name is mixed to 64 bits (the finaliser
// of Stafford's variant 13, as in Steele, Lea, Flood 2014). These bits are the first state of a
// PCG-XSH-RR generator (O'Neill 2014).
#pragma once

#include <cstdint>

namespace dapple {

constexpr uint64_t mix_bits(uint64_t z) {
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31);
}

constexpr uint64_t mix_bits(uint64_t a, uint64_t b) {
    return mix_bits(a + 0x9e3779b97f4a7c15ULL * (mix_bits(b) + 1));
}

// The largest float below 1: uniform numbers are in [0, 1).
inline constexpr float kOneMinusEpsilon = 0x1.fffffep-1F;

constexpr float uniform_from_bits(uint32_t bits) {
    return static_cast<float>(bits >> 8) * 0x1p-24F;
}

// What a stream is for; streams of different purposes are independent.
enum class Purpose : uint32_t {
    kCameraWalk,
    kLightWalk,
    kLightWalkScramble,
    kWavelengths,
    kTest,
    kMeterWalk,
    kMeterJoin,
    kPilot,
    kKeepPhoton,
    kAskPilot,
    kStoreVertex,
    kConnectionPilot,
    kGlintWalk,
    kGlass = 100,  // fixed, so that a seed always makes the same glass
};

class RandomStream {
  public:
    RandomStream(uint64_t seed, uint32_t pass, uint64_t index, Purpose purpose)
        : state_(mix_bits(mix_bits(seed, pass), mix_bits(index, static_cast<uint64_t>(purpose)))),
          increment_((mix_bits(state_, index) << 1U) | 1U) {
        next_bits();
    }

    uint32_t next_bits() {
        const uint64_t old = state_;
        state_ = old * 6364136223846793005ULL + increment_;
        const auto xorshifted = static_cast<uint32_t>(((old >> 18U) ^ old) >> 27U);
        const auto rotation = static_cast<uint32_t>(old >> 59U);
        return (xorshifted >> rotation) | (xorshifted << ((32U - rotation) & 31U));
    }

    float next() { return uniform_from_bits(next_bits()); }

  private:
    uint64_t state_;
    uint64_t increment_;
};

}  // namespace dapple
