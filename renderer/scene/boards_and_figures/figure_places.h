// Where the parts of a lay figure are at which lamps, lenses and meters are aimed.
#pragma once

#include "scene/scene.h"

namespace dapple {

// The middle of the chest, inside the body.
Point figure_chest(const StandIn& figure);
// The middle of the head at the height of the eyes.
Point figure_face(const StandIn& figure);
// The middle of the seat that a seated figure needs: 0.235 of its height high, and 0.265 behind its
// feet.
Point figure_seat(const StandIn& figure);

}  // namespace dapple
