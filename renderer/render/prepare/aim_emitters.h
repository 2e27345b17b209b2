// Aims light walks at the glass in their beam.
//
// Rays through the windows of all glass objects (fixtures/aim.h) measure, cell by cell, the flux
// that enters glass. Rays of the beam measure the share c that falls on cloth. The aimed share of a
// fixture's light walks is
//   a = 9 g / (1 + 9 g) · g / (g + c)                                                        (E71)
// where g is the share of its flux that enters glass. Without cloth, a lumen that enters glass gets
// ten times the walks of a lumen that misses it and that camera walks also find. No walks are aimed
// if glass would get less than 1.2 times the walks that the beam alone sends to it. All rays are
// fixed, so every process computes the same numbers.
#pragma once

#include <vector>

#include "fixtures/emitter.h"
#include "geometry/world.h"
#include "render/prepare/aim_probes.h"
#include "scene/scene.h"

namespace dapple {

// `probes`: the lamps' poses; what is found is added. `kept`: of an earlier frame, used again for
// lamps and glass that stand as they did.
void aim_emitters(const Scene& scene,
                  const World& world,
                  const std::vector<LampProbes>& kept,
                  std::vector<LampProbes>& probes,
                  std::vector<Emitter>& emitters);

}  // namespace dapple
