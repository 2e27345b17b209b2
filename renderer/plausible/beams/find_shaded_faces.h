// Flags and boards that take most of a fixture's light off the face that it is aimed at. A flag is
// there to cut, so only three quarters of the light count.
#pragma once

#include "plausible/light/quick_light.h"
#include "plausible/staged_set.h"

namespace dapple {

Doubts find_shaded_faces(const StagedSet& set, const QuickLight& light);

}  // namespace dapple
