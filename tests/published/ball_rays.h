// Rays of parallel light through a ball of glass with two refractions. Either through an exact
// sphere, with the engine's refraction at each surface; or in a World through the engine's ball of
// triangles with interpolated normals. Lengths are in radii of the ball.
#pragma once

#include "published/traced.h"

namespace dapple::published {

// A ray along +x at height h that enters the unit sphere around the origin and leaves it again.
struct SphereRay {
    glm::dvec3 position, direction;
    double first = 0;  // share reflected at the first surface
    double share = 0;  // share refracted at both surfaces

    // The x behind the sphere at which the ray's height is 0.
    double crossing() const { return position.x - position.y * direction.x / direction.y; }
    double height_at(double x) const {
        return position.y + (x - position.x) * direction.y / direction.x;
    }
};
SphereRay through_sphere(double h, float index);

// The direction of a beam onto the engine's ball (ball_scene), and a direction across it.
struct BallAim {
    glm::dvec3 along, aside;
};
BallAim aim_at_ball(RandomStream& random);

// A walk at height h of that beam.
Walk towards_ball(const BallAim& aim, double h);

}  // namespace dapple::published
