// The light that haze scatters along a straight leg of a sensor walk.
//
// A path with haze belongs to one technique alone, by its event nearest to the lamp (E102):
//   - haze, and a small lamp: next-event estimation from a point of the leg (E96, E97); in
//     Stage::partition any lamp;
//   - a mirror or smooth glass, if the fixture's light walks leave beams: beams (E99, E100);
//   - any other surface, or haze and a wide lamp: sensor walks, which ask lamps and lit cloths
//     there or meet the lamp.
// The last of them share the weights of sensor walks. Light walks are not scattered by haze, so
// paths without haze have the same densities and weights as in clear air; haze only dims them.
#pragma once

#include <span>

#include "transport/sensor_walk.h"

namespace dapple {

struct HazeLeg {
    Point origin{0};
    Direction direction{0, 0, 1};
    CarriedLight light;  // of the walk at the origin
    HazeWay way;
    bool seen = false;  // by the lens, directly or through smooth glass
    float chance = 1;   // that the leg's light is looked for; the light is divided by it
};

// Adds the light of small lamps that comes straight to the leg.
void add_lamps_in_haze(const Stage& stage,
                       SensorWalk& sensor,
                       const HazeLeg& leg,
                       SensorNumbers& numbers,
                       std::span<Spectrum> by_fixture);

// Adds the light of the pass's beams.
void add_beams_in_haze(const Stage& stage,
                       const SensorWalk& sensor,
                       const HazeLeg& leg,
                       std::span<Spectrum> by_fixture);

// A point where haze has scattered a sensor walk: the walk's last position.
struct HazePoint {
    const Stage& stage;
    SensorWalk& sensor;
    Direction from;  // the way of the walk that arrived there
    RandomStream& random;
    std::span<Spectrum> by_fixture;

    // Adds the light of lit cloths and of wide lamps that comes straight to the point.
    void add_light() const;

  private:
    void add_cloth(size_t fixture, float asked, const Vertex& at) const;
    void add_lamp(size_t fixture, float asked, const Vertex& at) const;
};

}  // namespace dapple
