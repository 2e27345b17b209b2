// Pillars that stand in the room.
#pragma once

#include "scene/scene.h"

namespace dapple {

// A closed box, or a closed cylinder of 96 sides with smooth normals around it.
Mesh make_column(const Column& column);

}  // namespace dapple
