// Finds the glints of a frame (glint_map.h), before the first pass.
//
// From some places of each pixel that sees a smooth surface, all branches of the way through smooth
// surfaces are followed. Where such a way passes a lamp so closely that the lamp's middle would be
// on it if it started within about a pixel, the start is improved by Newton's method. A glint is
// kept if its way is clear, if it is small, and if it is bright enough to be seen.
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
