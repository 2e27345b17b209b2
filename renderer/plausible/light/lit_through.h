// Which pixels are lit through a thing, such as a glass that a search tries places for.
//
// From what a pixel shows, straight lines go to five points of each lamp's face. A lamp shines
// through the thing if all lines that nothing opaque stops cross the thing, if the pixel is in the
// field of its beam (a tenth of its peak candela, or more), and if it gives the pixel at least a
// tenth of its direct light. Light is bent by the thing, so the mask is where its shadow would be
// if it were opaque, and not quite where its light falls.
//
// The outline of the thing and its rim are no pattern of the light. So pixels do not count whose
// line crosses the rim: 0.15 of the radius of a ball around the thing. Nor do their neighbours up
// to 2 px away, and pixels that show the thing itself or something through it. The numbers are our
// own choices.
#pragma once

#include <span>
#include <vector>

#include "film/first_hits.h"
#include "film/seen_points.h"
#include "plausible/staged_set.h"

namespace dapple {

// By pixel of the frame: 1 if it is one of `pixels` and lit through the thing.
std::vector<char> find_lit_through(const StagedSet& set,
                                   const Thing& thing,
                                   const FirstHits& hits,
                                   const SeenPoints& seen,
                                   std::span<const int32_t> pixels);

}  // namespace dapple
