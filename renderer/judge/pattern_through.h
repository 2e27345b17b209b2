// The pattern of light that comes through one thing, such as a glass that a search tries places
// for: its outline and other shadows in the region are no texture of it.
//
//   texture = T s,  cover = C s                                                          (E169)
// T texture and C cover of the region's pixels that are lit through the thing, s their share of
// the region. So a strong pattern in a corner of the region counts no more than a weaker one over
// all of it. Without enough such pixels, or without light there, both are 0. Patches are those of
// the lit pixels.
#pragma once

#include "judge/pattern.h"

namespace dapple {

// `lit`: the same region cut out with only those pixels inside.
Pattern measure_pattern_through(const RegionImage& region, const RegionImage& lit);

}  // namespace dapple
