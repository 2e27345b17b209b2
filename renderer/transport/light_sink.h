// What light walks find, and where they leave it.
#pragma once

#include <memory>
#include <span>

#include "geometry/world.h"
#include "spectrum/spectrum.h"

namespace dapple {

// The spot that a splat stands for, in the frame.
struct Footprint {
    bool known = false;
    float most_px = 1e9F;  // no wider than this: what is seen there changes with the angle
    Vec2 half_axes[2] = {Vec2(0), Vec2(0)};  // px; two that span an ellipse
};

// A splat's light where it is seen; in several parts where glass has put its wavelengths apart.
struct SplatPart {
    Vec2 raster{0};
    Spectrum luminance{0.0F};  // cd/m²
};

// Where light walks leave what they find, at the pass's wavelengths and per unit of the fixture's
// group spectra; it may be called from any thread.
class LightSink {
  public:
    // To the frame: what is seen at `at`, at most eight parts.
    virtual void add_splat(std::span<const SplatPart> parts,
                           const Footprint& footprint,
                           const SurfacePoint& at,
                           int fixture) = 0;
    // To a meter's reading in lx.
    virtual void add_reading(int meter, int fixture, const Spectrum& lux) = 0;
    // A sink for some walks of one thread, which may keep splats back until it is destroyed;
    // nullptr: such walks use this one itself.
    virtual std::unique_ptr<LightSink> for_some_walks() { return nullptr; }

    virtual ~LightSink() = default;
};

}  // namespace dapple
