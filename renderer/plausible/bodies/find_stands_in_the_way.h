// Stands whose rods go through something on their way to the floor, and a camera inside a body.
// Exact.
#pragma once

#include "plausible/staged_set.h"

namespace dapple {

Doubts find_stands_in_the_way(const StagedSet& set);

Doubts find_camera_inside(const StagedSet& set);

}  // namespace dapple
