// Light that the clean frame leaves out at single pixels is added to the light around them, in
// proportion to it, so that regions keep their means:
//   F_j' = F_j (1 + min(0.02, Σ_i min(0.001, d_i / Σ_k F_k)))                              (E142)
// F: luminance of the clean frame; d: what was left out at i; Σ_i: over the 49² pixels around j;
// Σ_k: over those around i. The limits keep the light of a very bright speck from becoming a glow
// around it; what exceeds them is lost.
#pragma once

#include "clean/plane.h"

namespace dapple {

void spread_light(const Plane& left_out, Plane& light);

}  // namespace dapple
