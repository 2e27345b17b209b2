// Light walks: from a lamp, through glass, from surface to surface. Every vertex on a rough surface
// is joined to the lens and the meters.
#pragma once

#include "math/sequences.h"
#include "transport/haze/beam.h"
#include "transport/light_sink.h"
#include "transport/walk.h"

namespace dapple {

struct WalkCounts {
    uint64_t rays = 0;
    uint64_t nonfinite = 0;
};

// The uniform numbers with which the fixture's light walks start in the stage's pass, by the index
// of the walk: two for the place on the lamp, then two for the direction. A Sobol sequence that
// each pass scrambles anew.
SobolOwen4d light_walk_starts(const Stage& stage, int fixture);

// Names one light walk of the stage's pass.
struct LightWalkName {
    int fixture = 0;
    int index = 0;
};

// Where a light walk's light and photons go.
struct LightWalkSinks {
    LightSink& light;
    PhotonList* photons = nullptr;       // nullptr: photons are not kept
    StoredVertexList* stored = nullptr;  // nullptr: vertices are not stored for connections
    BeamList* beams = nullptr;           // nullptr: no beams are left in haze
};

// `starts`: the fixture's light_walk_starts().
void trace_light_walk(const Stage& stage,
                      const LightWalkName& name,
                      const SobolOwen4d& starts,
                      const LightWalkSinks& sinks,
                      WalkCounts& counts);

}  // namespace dapple
