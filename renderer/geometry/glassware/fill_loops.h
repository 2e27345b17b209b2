// Fills flat outlines with triangles: the level surface of a liquid, whatever its shape.
//
// Ear clipping (Meisters 1975). Holes are first joined to the outline around them by a bridge, the
// shortest line to it that crosses nothing. The time is quadratic in the number of points, which is
// fast enough for the few hundred points of a liquid's surface.
#pragma once

#include <vector>

#include "math/vec.h"

namespace dapple {

using Loop = std::vector<uint32_t>;  // indices of points

// Chains directed edges to closed loops.
std::vector<Loop> chain_loops(const std::vector<std::pair<uint32_t, uint32_t>>& edges);

// Triangles, anticlockwise, that fill the area to the left of all loops: outlines run
// anticlockwise, holes clockwise. No loop may cross itself or another.
std::vector<glm::uvec3> fill_loops(const std::vector<glm::dvec2>& points,
                                   const std::vector<Loop>& loops);

}  // namespace dapple
