#include "geometry/lay_figure/make_stand_in_pose.h"

namespace dapple {

namespace {

// Directions of the three parts of a left arm.
struct Arm {
    Vec3 upper, fore, hand;
    Direction palm;
};

const Arm kHanging{Vec3(0.12F, -0.99F, -0.02F),
                   Vec3(0.02F, -0.98F, 0.18F),
                   Vec3(-0.04F, -0.98F, 0.16F),
                   Direction(1, 0, 0)};
const Arm kOnThigh{Vec3(0.08F, -0.97F, 0.22F),
                   Vec3(-0.35F, -0.33F, 0.9F),
                   Vec3(-0.1F, -0.2F, 0.97F),
                   Direction(0, 1, 0)};
const Arm kRaised{Vec3(0.55F, 0.77F, 0.30F),
                  Vec3(0.05F, 0.95F, 0.28F),
                  Vec3(-0.1F, 0.98F, 0.12F),
                  Direction(0, 0, 1)};

void put_arm(const Arm& arm, Limbs& limbs) {
    limbs.elbow = limbs.shoulder + kUpperArm * glm::normalize(arm.upper);
    limbs.wrist = limbs.elbow + kForearm * glm::normalize(arm.fore);
    limbs.fingertip = limbs.wrist + kHand * glm::normalize(arm.hand);
    limbs.palm = arm.palm;
}

void put_leg(const Vec3& trunk, bool seated, Limbs& limbs) {
    limbs.hip = Vec3(0.052F, kHipHeight, 0) + trunk;
    limbs.knee = Vec3(0.055F, kKneeHeight, seated ? -0.02F : -0.008F);
    limbs.ankle = Vec3(0.055F, 0.039F, -0.02F);
}

void mirror(Limbs& limbs) {
    for (Vec3* joint : {&limbs.shoulder,
                        &limbs.elbow,
                        &limbs.wrist,
                        &limbs.fingertip,
                        &limbs.hip,
                        &limbs.knee,
                        &limbs.ankle}) {
        joint->x = -joint->x;
    }
}

}  // namespace

Joints make_joints(Pose pose) {
    const bool seated = pose == Pose::kSeated;
    Joints joints;
    // Seated, the thighs are level: the hips are as high as the knees and a thigh's length behind.
    constexpr float kThigh = kHipHeight - kKneeHeight;
    if (seated) joints.trunk = Vec3(0, -kThigh, -0.02F - kThigh);
    joints.hem = seated ? 0.63F : 0.42F;  // seated, above the lap
    for (Limbs& limbs : joints.sides) {
        const bool right = &limbs == joints.sides.data();
        limbs.shoulder = Vec3(0.112F, 0.818F, -0.005F) + joints.trunk;
        const bool raised = right && pose == Pose::kArmRaised;
        put_arm(seated ? kOnThigh : raised ? kRaised : kHanging, limbs);
        put_leg(joints.trunk, seated, limbs);
        if (right) mirror(limbs);
    }
    return joints;
}

}  // namespace dapple
