// Light walks: from a lamp, through glass, from surface to surface. Every vertex that can be joined
// is joined to the lens and the meters.
#pragma once

#include "math/sequences.h"
#include "transport/light_sink.h"
#include "transport/walk.h"

namespace dapple {

struct WalkCounts {
    uint64_t rays = 0;
    uint64_t nonfinite = 0;
};

// The points from which the fixture's light walks of the stage's pass start, by index: a point of
// the unit square for the place on the lamp, then one for the direction. A scrambled Sobol sequence
// over both, scrambled anew each pass.
SobolOwen4d light_walk_starts(const Stage& stage, int fixture);

// One light walk among all of the stage's pass.
struct LightWalkName {
    int fixture = 0;
    int index = 0;
};

// Where a light walk leaves what it finds.
struct LightWalkSinks {
    LightSink& light;
    PhotonList* photons = nullptr;  // nullptr: photons are not kept
};

// `starts`: light_walk_starts() of the fixture.
void trace_light_walk(const Stage& stage,
                      const LightWalkName& name,
                      const SobolOwen4d& starts,
                      const LightWalkSinks& sinks,
                      WalkCounts& counts);

}  // namespace dapple
