// The error of the clean frame, estimated from the film.
//
//   e² = ⟨h²⟩ + max(0, ⟨(L - l)²⟩ - ⟨(H - h)²⟩)
// L, H: the film's light and its noise image; l, h: the same after cleaning with the same weights;
// ⟨ ⟩: mean over 7 × 7 pixels. The first term is the noise that is left. The second is what
// cleaning has changed beyond the noise that it has removed: its blur.
#pragma once

#include "clean/link_pixels.h"

namespace dapple {

// Standard error of each pixel's luminance, in the unit of the images.
Plane estimate_error(const GuideImages& film, const GuideImages& clean);

}  // namespace dapple
