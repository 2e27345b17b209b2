// The error of the clean frame, estimated from the film:
//   e² = 1.5² (⟨h²⟩ + max(0, ⟨(F - f)²⟩ - ⟨(H - h)²⟩))                                   (E145)
// F, H: the film's luminance and its noise image (E132); f, h: both after cleaning with the same
// weights; ⟨ ⟩: mean over 13 × 13 pixels. H is the difference between two halves of the walks, so h
// is the difference between the two halves cleaned apart. ⟨h²⟩ is the noise that is left. The rest
// is what cleaning has changed beyond the noise that it has removed: its blur.
#pragma once

#include "clean/plane.h"

namespace dapple {

struct LightAndNoise {
    const Plane& light;
    const Plane& noise;
};

// Standard error of each pixel's luminance, in the unit of the images.
Plane estimate_error(const LightAndNoise& film, const LightAndNoise& clean);

}  // namespace dapple
