// How many camera walks each pixel is given in a pass.
//
// Seen through glass a pixel is noisier than elsewhere: what lies behind comes in one wavelength of
// eight where glass disperses, by reflection or refraction, and a rib sends each walk another way.
// Such pixels, and their neighbours, which see the rim, get several walks:
//   min(8, max(1, 0.3 N / G)) of N pixels of which G see glass                             (E72)
// Eight, since then every one of the eight wavelengths has led a walk. The count comes from the
// scene alone.
#pragma once

#include <cstdint>
#include <vector>

#include "film/first_hits.h"
#include "scene/scene.h"

namespace dapple {

// By pixel, rows from the top.
std::vector<uint8_t> count_pixel_walks(const Scene& scene, const FirstHits& first_hits);

}  // namespace dapple
