// The lay figure: a jointed artist's figure of rounded parts, with a cape of thin cloth about it.
//
// Each part is a closed body with smooth normals; parts overlap at the joints, as they are opaque.
#pragma once

#include <vector>

#include "scene/scene.h"

namespace dapple {

// Body, hair and cape, as far as the figure has them.
std::vector<Mesh> make_stand_in(const StandIn& figure);

}  // namespace dapple
