// A light walk's rays through haze, kept as beams.
#pragma once

#include "transport/haze/beam.h"
#include "transport/light_at_meters.h"

namespace dapple {

// Whether the walk's next ray is left in the haze as a beam: after a mirror or smooth glass.
bool leaves_beam(const Stage& stage, const LightWalkStart& start, const Walk& walk);

// A ray of a light walk.
struct WalkRay {
    const Walk& before;        // the walk before the ray was traced
    float length = 0;          // m
    bool lands_whole = false;  // all wavelengths end within the radius of a beam
};
void leave_beam(const Stage& stage,
                const LightWalkStart& start,
                const WalkRay& ray,
                BeamList& beams);

}  // namespace dapple
