// Colours that the passes agree on. A walk behind dispersing glass carries one wavelength, and a
// bright one tints much of the frame once its colour is exchanged. A colour that half of the passes
// did not find is therefore weaker in the clean frame, or that half of the light walks did not find
// if there is only one pass; its brightness stays.
//
//   c' = b L + k (c - b L),
//   k = max(0, 1 - 2 max(0, ⟨h²⟩ - 0.01 ⟨L²⟩) / ⟨(c - b L)²⟩)                              (E136)
// c: red and blue less the luminance L; h: their noise, cleaned as they are; ⟨ ⟩: mean over 9²
// pixels, of both colours together. b: the mean of c over that of L on the surface that the pixel
// sees, in the whole frame, where pixels with much noise count less. Noise of less than a tenth of
// the light hardly shows, and is let be.
#pragma once

#include <vector>

#include "clean/colour_planes.h"
#include "film/seen_points.h"

namespace dapple {

// On surfaces. `noise`: of red and of half of blue, each less the luminance. The first layer is all
// light. The layers' luminances stay, and so does what they add up to.
void keep_sure_colours(const SeenPoints& seen,
                       const std::vector<Plane>& noise,
                       std::vector<ColourPlanes>& layers);

}  // namespace dapple
