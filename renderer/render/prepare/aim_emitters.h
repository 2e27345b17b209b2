// Aims light walks at the glass in their beam.
//
// Rays through the windows of all glass objects (fixtures/aim.h) find, cell by cell, the flux that
// enters glass; rays of the beam find the share c that falls on cloth. Of a fixture's light walks
//   a = 9 g / (1 + 9 g) · g / (g + c)                                                        (E67)
// are aimed, g the share of its flux that enters glass: where there is no cloth, a lumen that
// enters glass gets ten times the walks of a lumen beside it, which camera walks find too. None
// are where glass would get less than 1.2 times the walks that the beam alone sends it. All rays
// are fixed: every process comes to the same numbers.
#pragma once

#include <vector>

#include "fixtures/emitter.h"
#include "geometry/world.h"
#include "scene/scene.h"

namespace dapple {

void aim_emitters(const Scene& scene, const World& world, std::vector<Emitter>& emitters);

}  // namespace dapple
