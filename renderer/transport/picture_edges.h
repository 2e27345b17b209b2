// How far a lens sees to the sides.
#pragma once

#include "scene/scene.h"

namespace dapple {

// Tangents of angles from the lens's axis, to the right and upwards.
struct PictureEdges {
    Vec2 middles{0};    // to the middles of the right and the upper edge
    Vec2 outermost{0};  // the farthest to the right and upwards that the right and upper edge reach
};

// As the picture is drawn, through glass too. A point for an aperture.
PictureEdges find_picture_edges(const Camera& camera);

}  // namespace dapple
