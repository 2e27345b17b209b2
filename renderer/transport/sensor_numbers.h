// The uniform numbers of one sensor walk.
//
// The first decisions use point `index` of a scrambled Sobol sequence, so that the noise of edges,
// penumbrae and first bounces falls faster. Later decisions use random numbers.
#pragma once

#include <array>

#include "base/random.h"
#include "math/vec.h"
#include "transport/sheet_light.h"

namespace dapple {

class SensorNumbers {
  public:
    SensorNumbers(const RandomStream& stream, uint32_t index, uint64_t scramble)
        : random(stream), index_(index), scramble_(scramble) {}

    // Edge 0 is the receptor itself, edge 1 the first surface.
    std::array<float, 4> start() const { return set(0); }
    Vec3 scatter(int edge);
    // Two numbers that choose the lamps and the cloths that a vertex asks.
    std::array<float, 2> ask(int edge);
    // Two numbers that choose the stored vertex to which the walk is connected. Used once a walk.
    std::array<float, 2> connection() const;
    std::array<float, 2> lamp(int edge, size_t fixture);
    SheetNumbers sheet(int edge, size_t fixture);
    // In haze: which lamps a leg asks; the place on the leg and the point of the lamp; whether a
    // walk is scattered, where, and to which side.
    float haze_lamp_choice(int edge);
    std::array<float, 3> haze_lamp(int edge, size_t fixture);
    std::array<float, 4> haze_event(int edge);

    RandomStream random;

  private:
    std::array<float, 4> set(uint32_t number) const;

    uint32_t index_;
    uint64_t scramble_;
};

}  // namespace dapple
