// The rounded parts of the lay figure, closed and with smooth normals.
//
// Both kinds are solids of revolution: rings of kPartSegments points from pole to pole. With 48
// points the outline of a head is 0.2 mm off its ellipse.
#pragma once

#include "scene/scene.h"

namespace dapple {

inline constexpr uint32_t kPartSegments = 48;

// An ellipsoid with half axes along the frame's axes.
void add_ball(Mesh& mesh, const Point& centre, const Vec3& half_axes, const Frame& frame);

// The convex hull of two balls.
void add_limb(Mesh& mesh, const Point& from, float from_radius, const Point& to, float to_radius);

}  // namespace dapple
