// Whether fixtures, meters and the camera stand where they can: not inside a wall or a solid.
//
// A fixture is inside something when every ray around it meets a surface from behind, while the
// camera's rays do not. (In a model whose normals are all flipped the rays of both do.) A fixture
// is also misplaced when a surface cuts through its lamp. The same holds for a meter. Nor may a
// meter lie on a surface, because rounding would then decide which side's light it reads.
#pragma once

#include "base/problems.h"
#include "geometry/world.h"

namespace dapple {

void check_placement(const Scene& scene, const World& world, Problems& problems);

}  // namespace dapple
