// The number of camera walks of each pixel in a pass.
//
// A pixel that sees glass is noisier than others: dispersion leaves one wavelength of eight, a walk
// is either reflected or refracted, and ribs send each walk in another direction. These pixels and
// their neighbours at the rim of the glass get several walks:
//   min(8, max(1, 0.3 N / G)),  N pixels in the frame, G of which see glass or its rim       (E83)
// In eight walks, each of the eight wavelengths is the hero once. The number depends on the scene
// alone.
#pragma once

#include <cstdint>
#include <vector>

#include "film/first_hits.h"
#include "scene/scene.h"

namespace dapple {

// By pixel, rows from the top.
std::vector<uint8_t> count_pixel_walks(const Scene& scene, const FirstHits& first_hits);

}  // namespace dapple
