// The disc in the frame over which the lens sees a light walk that was scattered on its way, and
// how much such a walk counts in the weights of all ways to its path.
//
// A disc of radius r, shares 1 - d²/r², evens out 3πr²/4 pixels: (Σw)²/Σw² of the shares, the
// effective sample size (Kish 1965). As many walks bring each pixel what one would bring its own.
// (E73)
#pragma once

#include <algorithm>

#include "transport/stage.h"

namespace dapple {

// A gloss is bright near its mirror direction alone: moved aside by more than a third of its lobe,
// light would be too bright there.
inline float widest_splat_px(const Stage& stage, const Bsdf& bsdf) {
    return narrowest_lobe(bsdf) / (3 * stage.lens.pixel_width_at(1));
}

inline float soft_splat_weight(float radius_px) {
    return std::max(1.0F, 0.75F * kPiF * square(radius_px));
}

// Of a surface that the lens sees first.
inline float soft_splat_weight(const Stage& stage, const Bsdf& bsdf) {
    return soft_splat_weight(std::min(stage.soft_splat_px, widest_splat_px(stage, bsdf)));
}

}  // namespace dapple
