// The ellipse in the frame over which a splat's light is distributed.
//
// A pixel's weight is 1 - q (E107). q is the square of its distance from the middle, measured in
// half-axes. If the spot that the light walk stands for is known (transport/photon_differential.h),
// the ellipse is that spot, with its half-axes kept between two radii. Else it is a disc.
#pragma once

#include <optional>

#include "film/pixel_run.h"
#include "math/vec.h"
#include "transport/light_sink.h"

namespace dapple {

// Radii of a pass, px.
struct SplatRadii {
    float unknown = 0;  // radius of splats whose spot is not known
    float least = 0;    // smallest half-axis of the other splats
    float most = 0;     // largest half-axis of the other splats
};

struct SplatEllipse {
    // q = xx dx² + 2 xy dx dy + yy dy² is 1 on the rim.
    float xx = 0, xy = 0, yy = 0;
    Vec2 reach{0};      // px, half the size of the box around the ellipse
    float longest = 0;  // px, the longer half-axis

    static SplatEllipse disc(float radius_px);
    // The ellipse that the two half-axes span, with its own axes kept between `least` and `most`.
    static SplatEllipse spanned_by(const Footprint& footprint, float least, float most);

    // Weights of the pixels of a run. (dx, dy) is the first pixel's offset from the middle, px.
    RunWeights weights(float dx, float dy) const {
        constexpr RunFloats kSteps{0, 1, 2, 3, 4, 5, 6, 7};
        const RunFloats d = kSteps + dx;
        const RunFloats w = (1.0F - yy * dy * dy) - d * (2 * xy * dy + xx * d);
        return {w > 0.0F ? w : RunFloats{}};
    }
};

// Nothing if the splat covers no more than one pixel.
std::optional<SplatEllipse> splat_ellipse(const Footprint& footprint, const SplatRadii& radii);

}  // namespace dapple
