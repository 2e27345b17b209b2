// What steers sensor walks in haze, made once for a set. It changes no picture but its noise.
#pragma once

#include <vector>

#include "fixtures/emitter.h"
#include "geometry/world.h"

namespace dapple {

// How far the light of a lamp's middle gets, by direction.
class LampView {
  public:
    LampView(const World& world, const Emitter& emitter, int fixture);

    // Whether light gets `distance` m far, as far as the view tells.
    bool reaches(const Direction& direction, float distance) const;

  private:
    static constexpr int kAcross = 64;

    size_t cell_of(const Vec2& at) const;

    Frame frame_;
    float widest_;  // rad, from the axis: where the view ends
    // m, by angle from the axis and around it, as distance from the middle of a disc and around it.
    std::vector<float> free_;
};

// From near a wide lamp its own points look too unlike for a leg to ask one of them.
inline bool is_wide(const Emitter& emitter) {
    constexpr float kWideRadius = 0.1F;  // m
    return emitter.radius() > kWideRadius;
}

struct HazeAids {
    // Probability with which a point where haze scatters a walk asks the cloth that each fixture
    // lights, and each wide lamp. Small lamps are asked by legs (lamp_choice.h); theirs is 0.
    std::vector<float> sheets;
    std::vector<float> lamps;
    std::vector<LampView> views;  // by fixture
};

}  // namespace dapple
