// What a walk from a sensor, the lens or a meter's receptor, collects on its way: at every vertex
// each fixture is asked for its direct light; a lamp that the walk meets adds what it sends.
#pragma once

#include <array>
#include <span>

#include "transport/walk.h"

namespace dapple {

// What a sensor walk starts from. At a receptor lamps are asked for their light already.
enum class SensorEnd { kLens, kReceptor, kPointReceptor };

// Uniform numbers of one sensor walk. The first decisions are point `index` of a scrambled Sobol
// sequence, so that edges, penumbrae and first bounces even out faster; later ones are random.
class SensorNumbers {
  public:
    SensorNumbers(const RandomStream& stream, uint32_t index, uint64_t scramble)
        : random(stream), index_(index), scramble_(scramble) {}

    std::array<float, 4> start() const { return set(0); }
    Vec3 scatter(int edge);
    // Edge 0 is the receptor itself.
    std::array<float, 2> lamp(int edge, size_t fixture);
    // A point on cloth and one on the lamp behind it.
    struct Sheet {
        std::array<float, 3> point;
        std::array<float, 2> lamp;
    };
    Sheet sheet(int edge, size_t fixture);

    RandomStream random;

  private:
    std::array<float, 4> set(uint32_t number) const;

    uint32_t index_;
    uint64_t scramble_;
};

// Follows a walk that has its first ray. Adds to `by_fixture` (one per fixture) what it collects at
// the pass's wavelengths, per unit of the group spectra.
void follow_sensor_walk(const Stage& stage,
                        SensorEnd end,
                        Walk& walk,
                        SensorNumbers& numbers,
                        std::span<Spectrum> by_fixture);

}  // namespace dapple
