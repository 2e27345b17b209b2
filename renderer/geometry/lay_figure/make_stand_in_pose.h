// Where the joints of the lay figure are in each of its poses.
//
// Frame: the figure's own (scene.h), in shares of its height: x to its left, y up, z the way it
// faces. Lengths of segments: Drillis and Contini 1966, as in Winter, Biomechanics and Motor
// Control of Human Movement (from memory): heights of chin 0.870, shoulder 0.818, hip 0.530, knee
// 0.285 and ankle 0.039; upper arm 0.186, forearm 0.146, hand 0.108, foot 0.152. Poses, widths and
// thicknesses are our own.
#pragma once

#include <array>

#include "math/vec.h"
#include "scene/scene.h"

namespace dapple {

inline constexpr float kUpperArm = 0.186F;
inline constexpr float kForearm = 0.146F;
inline constexpr float kHand = 0.108F;
inline constexpr float kFoot = 0.152F;
inline constexpr float kHipHeight = 0.530F;
inline constexpr float kKneeHeight = 0.285F;

// One arm and one leg.
struct Limbs {
    Vec3 shoulder, elbow, wrist, fingertip;
    Direction palm{1, 0, 0};  // across the flat of the hand
    Vec3 hip, knee, ankle;
};

struct Joints {
    Vec3 trunk{0};               // displacement of head, trunk and arms from the standing pose
    std::array<Limbs, 2> sides;  // right, left
    float hem = 0;               // height of a cape's lower edge on the standing trunk
};

Joints make_joints(Pose pose);

}  // namespace dapple
