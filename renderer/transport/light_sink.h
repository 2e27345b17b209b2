// The output of light walks: splats for the frame and readings for the meters.
#pragma once

#include <memory>
#include <span>

#include "geometry/world.h"
#include "spectrum/spectrum.h"

namespace dapple {

// The spot in the frame that a splat stands for.
struct Footprint {
    bool known = false;
    float widest_px = 1e9F;  // limit of the radius, because a gloss changes with the angle
    Vec2 half_axes[2] = {Vec2(0), Vec2(0)};  // px; they span an ellipse
};

// A splat's light and its place in the frame. A splat has several parts if dispersive glass has
// sent its wavelengths to different places.
struct SplatPart {
    Vec2 raster{0};
    Spectrum luminance{0.0F};  // cd/m²
};

// Receives the light that light walks find, at the pass's wavelengths and per unit of the fixture's
// group spectra. Any thread may call it.
class LightSink {
  public:
    // Adds a splat of at most eight parts to the frame. `at` is the surface point where it is seen.
    virtual void add_splat(std::span<const SplatPart> parts,
                           const Footprint& footprint,
                           const SurfacePoint& at,
                           int fixture) = 0;
    // Adds to a meter's reading in lx.
    virtual void add_reading(int meter, int fixture, const Spectrum& lux) = 0;
    // A sink for a block of walks on one thread. It may delay splats until it is destroyed.
    // nullptr: the walks use this sink. `half`: 0 or 1, the half of the pass's walks.
    virtual std::unique_ptr<LightSink> make_buffered(int /*half*/) { return nullptr; }

    virtual ~LightSink() = default;
};

}  // namespace dapple
