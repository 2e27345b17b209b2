// Whether fixtures, meters and the camera stand where they can: not inside a wall or a solid.
//
// A fixture is inside something when every ray around it meets a surface from behind, while the
// camera's do not (in a model whose normals are all flipped they do for both), or when a surface
// cuts through its lamp. A meter likewise; nor may it lie on a surface, where it would be chance
// whether it reads the light in front or behind.
#pragma once

#include "base/problems.h"
#include "geometry/world.h"

namespace dapple {

void check_placement(const Scene& scene, const World& world, Problems& problems);

}  // namespace dapple
