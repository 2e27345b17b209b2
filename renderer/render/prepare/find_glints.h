// Finds the glints of a frame (glint_map.h), before the first pass.
//
// From the middle of each pixel at which a smooth surface is seen, all branches of the way through
// smooth surfaces are followed; a narrow gloss may be the last surface. Where such a way would pass
// through a lamp's middle if it started within some pixels, the start is improved by Newton's
// method. A glint is kept if its way is clear, if the even walks of its pixels find it too rarely,
// and if it is bright enough to be seen.
#pragma once

#include "render/glint_map.h"
#include "render/prepare/find_first_hits.h"
#include "render/prepare/setup.h"
#include "render/work_watch.h"

namespace dapple {

// `walks`: even camera walks of each pixel.
GlintMap find_glints(const Setup& setup,
                     const FirstHits& first_hits,
                     const std::vector<uint8_t>& walks,
                     WorkWatch& watch);

}  // namespace dapple
