// What steers sensor walks in haze, made once for a set. It changes no picture but its noise.
#pragma once

#include <vector>

#include "fixtures/emitter.h"
#include "geometry/world.h"

namespace dapple {

// What a lamp sends in every direction and how far it gets, in cells of equal solid angle. It is
// rough, and quick to look up.
class LampView {
  public:
    LampView(const World& world, const Emitter& emitter, int fixture);

    struct Light {
        float candela = 0;
        float reach = 0;  // m from the lamp's middle: there something stops the light
    };
    const Light& towards(const Direction& direction) const;

  private:
    static constexpr int kAcross = 64;

    static size_t cell_of(const Vec2& at);
    Direction direction_at(const Vec2& at) const;

    Frame frame_;
    float widest_;  // 1 - cosine of the angle from the axis at which the view ends
    // Lambert's azimuthal projection, which keeps areas: the axis is in the middle of a disc.
    std::vector<Light> cells_;
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
