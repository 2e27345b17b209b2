// Light walks: from a lamp, through glass, from surface to surface; every vertex that can be
// joined is joined to the lens and the meters.
#pragma once

#include "math/sequences.h"
#include "transport/light_sink.h"
#include "transport/walk.h"

namespace dapple {

struct WalkCounts {
    uint64_t rays = 0;
    uint64_t nonfinite = 0;
};

// What the fixture's light walks of the stage's pass start from, by index: a point of the unit
// square for the place on the lamp, then one for the direction. A scrambled Sobol sequence over
// both, scrambled anew each pass.
SobolOwen4d light_walk_starts(const Stage& stage, int fixture);

// Light walk number `index` of a fixture in the stage's pass, from its light_walk_starts; its
// vertices are kept in `photons` where there is such a list.
void trace_light_walk(const Stage& stage,
                      int fixture,
                      const SobolOwen4d& starts,
                      int index,
                      LightSink& sink,
                      PhotonList* photons,
                      WalkCounts& counts);

}  // namespace dapple
