// Rays in parallel light on a ball of glass, followed through two refractions: on an exact sphere,
// surface by surface with the engine's own refraction; and through the engine's own ball of
// triangles with interpolated normals, in its World. Lengths in radii of the ball.
#pragma once

#include "published/traced.h"

namespace dapple::published {

// A ray at height h goes along +x to the unit sphere round the origin and leaves it again.
struct SphereRay {
    glm::dvec3 position, direction;
    double first = 0;  // mirrored at the first surface
    double share = 0;  // refracted at both

    // Behind the sphere, where its height is 0.
    double crossing() const { return position.x - position.y * direction.x / direction.y; }
    double height_at(double x) const {
        return position.y + (x - position.x) * direction.y / direction.x;
    }
};
SphereRay through_sphere(double h, float index);

// A direction from which the engine's ball (ball_scene) is met, and one across it.
struct BallAim {
    glm::dvec3 along, aside;
};
BallAim aim_at_ball(RandomStream& random);

// A walk at height h of that beam.
Walk towards_ball(const BallAim& aim, double h);

}  // namespace dapple::published
