// The lay figure: a jointed artist's figure of rounded parts in a cape of thin cloth.
//
// Each part is a closed body with smooth normals. Parts overlap at the joints, because they are
// opaque.
#pragma once

#include <vector>

#include "scene/scene.h"

namespace dapple {

// The body, then the hair and the cape where the figure has them.
std::vector<Mesh> make_stand_in(const StandIn& figure);

}  // namespace dapple
