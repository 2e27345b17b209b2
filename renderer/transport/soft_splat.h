// The disc in the frame over which a scattered light walk is spread, and how many times such a walk
// counts in the weights.
//
// A disc of radius r px with the shares w = 1 - d²/r² averages (Σw)²/Σw² = 3πr²/4 pixels, the
// effective sample size (Kish 1965). Each pixel then averages that many walks. But the pixels of a
// disc share their noise, and neither the eye nor the clean frame can average it away, as they do
// with noise that pixels do not share. So in the weights a walk counts less often: each pixel
// beyond the first counts as an eighth of a walk (E91).
#pragma once

#include <algorithm>

#include "transport/stage.h"

namespace dapple {

// The largest radius of the disc on a surface. A glossy surface is bright only near the mirror
// direction. Light that is moved by more than a third of the lobe would look too bright.
inline float widest_splat_px(const Stage& stage, const Bsdf& bsdf) {
    return narrowest_lobe(bsdf) / (3 * stage.lens.pixel_width_at(1));
}

inline float soft_splat_weight(float radius_px) {
    constexpr float kShareOfMore = 0.125F;
    const float pixels = std::max(1.0F, 0.75F * kPiF * square(radius_px));
    return 1.0F + kShareOfMore * (pixels - 1.0F);
}

// The same for a surface that the lens sees first.
inline float soft_splat_weight(const Stage& stage, const Bsdf& bsdf) {
    return soft_splat_weight(std::min(stage.soft_splat_px, widest_splat_px(stage, bsdf)));
}

}  // namespace dapple
