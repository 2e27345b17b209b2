// Light walks: from a lamp, through glass, from surface to surface; every vertex that can be
// joined is joined to the lens and the meters.
#pragma once

#include <memory>

#include "math/sequences.h"
#include "transport/walk.h"

namespace dapple {

// The spot that a splat stands for, in the frame.
struct Footprint {
    bool known = false;
    float most_px = 1e9F;  // no wider than this: what is seen there changes with the angle
    Vec2 half_axes[2] = {Vec2(0), Vec2(0)};  // px; two that span an ellipse
};

// Where light walks leave what they find, at the pass's wavelengths and per unit of the fixture's
// group spectra; it may be called from any thread.
class LightSink {
  public:
    // To the frame, in cd/m².
    virtual void add_splat(const Vec2& raster,
                           const Footprint& footprint,
                           const SurfacePoint& at,
                           int fixture,
                           const Spectrum& luminance) = 0;
    // To a meter's reading in lx.
    virtual void add_reading(int meter, int fixture, const Spectrum& lux) = 0;
    // A sink for some walks of one thread, which may keep splats back until it is destroyed;
    // nullptr: such walks use this one itself.
    virtual std::unique_ptr<LightSink> for_some_walks() { return nullptr; }

    virtual ~LightSink() = default;
};

struct WalkCounts {
    uint64_t rays = 0;
    uint64_t nonfinite = 0;
};

// What the fixture's light walks of the stage's pass start from, by index: a point of the unit
// square for the place on the lamp, then one for the direction. A scrambled Sobol sequence over
// both, scrambled anew each pass.
SobolOwen4d light_walk_starts(const Stage& stage, int fixture);

// Light walk number `index` of a fixture in the stage's pass; its vertices are kept in `photons`
// where there is such a list.
void trace_light_walk(const Stage& stage,
                      int fixture,
                      int index,
                      LightSink& sink,
                      PhotonList* photons,
                      WalkCounts& counts);

}  // namespace dapple
