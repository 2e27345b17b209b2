#include "geometry/lay_figure/make_stand_in.h"

#include <cmath>

#include "geometry/lay_figure/make_stand_in_cape.h"
#include "geometry/lay_figure/make_stand_in_parts.h"
#include "geometry/lay_figure/make_stand_in_pose.h"

namespace dapple {

namespace {

// All lengths are shares of the figure's height.

constexpr float kHalfHead = 0.065F;
const Vec3 kHeadCentre(0, 1 - kHalfHead, 0.012F);

const Frame kUpright(Direction(1, 0, 0), Direction(0, 1, 0), Direction(0, 0, 1));

void add_head(Mesh& body, const Vec3& trunk) {
    add_ball(body, kHeadCentre + trunk, Vec3(0.044F, kHalfHead, 0.056F), kUpright);
    add_ball(
        body, Vec3(0, 0.924F, 0.066F) + trunk, Vec3(0.009F, 0.016F, 0.013F), kUpright);  // nose
    add_limb(body, Vec3(0, 0.80F, -0.008F) + trunk, 0.033F, Vec3(0, 0.90F, 0) + trunk, 0.030F);
}

void add_trunk(Mesh& body, const Joints& joints) {
    const Vec3& trunk = joints.trunk;
    add_limb(body, joints.sides[0].shoulder, 0.0265F, joints.sides[1].shoulder, 0.027F);
    add_ball(body, Vec3(0, 0.735F, 0) + trunk, Vec3(0.098F, 0.105F, 0.066F), kUpright);
    add_ball(body, Vec3(0, 0.635F, 0) + trunk, Vec3(0.078F, 0.075F, 0.058F), kUpright);
    add_ball(body, Vec3(0, 0.555F, 0) + trunk, Vec3(0.092F, 0.075F, 0.066F), kUpright);
}

void add_arm(Mesh& body, const Limbs& limbs) {
    add_limb(body, limbs.shoulder, 0.028F, limbs.elbow, 0.020F);
    add_limb(body, limbs.elbow, 0.021F, limbs.wrist, 0.014F);
    const Direction along = glm::normalize(limbs.fingertip - limbs.wrist);
    const Direction palm = glm::normalize(limbs.palm - glm::dot(limbs.palm, along) * along);
    add_ball(body,
             0.5F * (limbs.wrist + limbs.fingertip),
             Vec3(0.012F, 0.024F, 0.5F * kHand),
             Frame(palm, glm::cross(along, palm), along));
}

void add_leg(Mesh& body, const Limbs& limbs) {
    add_limb(body, limbs.hip, 0.049F, limbs.knee, 0.031F);
    add_limb(body, limbs.knee, 0.032F, limbs.ankle, 0.019F);
    constexpr float kSole = 0.021F;  // half the height of a foot
    const Point middle(limbs.ankle.x, kSole, limbs.ankle.z + 0.24F * kFoot);
    add_ball(body, middle, Vec3(0.027F, kSole, 0.5F * kFoot), kUpright);
}

Mesh make_body(const Joints& joints) {
    Mesh body;
    add_head(body, joints.trunk);
    add_trunk(body, joints);
    for (const Limbs& limbs : joints.sides) {
        add_arm(body, limbs);
        add_leg(body, limbs);
    }
    return body;
}

// A cap over the skull, lower behind than in front.
Mesh make_hair(const Joints& joints) {
    Mesh hair;
    const Vec3 behind(0, 0.008F, -0.012F);
    add_ball(hair, kHeadCentre + behind + joints.trunk, Vec3(0.049F, 0.064F, 0.058F), kUpright);
    return hair;
}

Mesh place(Mesh mesh, const StandIn& figure, MaterialId material) {
    const float c = std::cos(figure.turn);
    const float s = std::sin(figure.turn);
    const auto turned = [&](const Vec3& v) {
        return Vec3(c * v.x + s * v.z, v.y, c * v.z - s * v.x);
    };
    for (Point& p : mesh.positions) p = figure.position + figure.height * turned(p);
    for (Normal& n : mesh.normals) n = turned(n);
    mesh.name = figure.name;
    mesh.materials.assign(mesh.triangles.size(), material);
    return mesh;
}

}  // namespace

std::vector<Mesh> make_stand_in(const StandIn& figure) {
    const Joints joints = make_joints(figure.pose);
    std::vector<Mesh> meshes{place(make_body(joints), figure, figure.skin)};
    if (figure.hair != kNoMaterial) {
        meshes.push_back(place(make_hair(joints), figure, figure.hair));
    }
    if (figure.dress != kNoMaterial) {
        Mesh cape = make_cape(joints.hem);
        for (Point& p : cape.positions) p += joints.trunk;
        meshes.push_back(place(std::move(cape), figure, figure.dress));
    }
    return meshes;
}

}  // namespace dapple
