// A pane: a box on its base, width along x, wall along z, with sharp edges.
//
// A pattern is cut into the front, the face towards +z: z = wall/2 - cut(x, y), normal along
// (∂cut/∂x, ∂cut/∂y, 1). The wall is measured over the crests.
#pragma once

#include "geometry/glassware/make_glass_lathe.h"

namespace dapple {

SolidMesh make_pane_mesh(const glm::dvec3& size, const Relief& relief);

}  // namespace dapple
