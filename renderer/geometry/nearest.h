// The distance of a point from triangles.
#pragma once

#include "geometry/world.h"

namespace dapple {

float distance_to_triangle(const Point& p, const Point& a, const Point& b, const Point& c);

// The distance from the nearest of the mesh's triangles; infinite for an empty mesh.
float distance_to_mesh(const Point& p, const Mesh& mesh);

}  // namespace dapple
