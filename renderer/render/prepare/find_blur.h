// How far out of focus the frame is at each pixel, for the clean frame.
//
//   b = the most, over four points of the aperture, of
//       min(c, 2 Δ / (0.85 p)) where the same surface is seen, max(c, c') where another is   (E143)
// c: diameter of the blur of what the ray through the aperture's centre meets first, c' of what the
// ray through the other point meets first, px; Δ: distance between the two seen points, across the
// line of sight; p: width of a pixel there. Things in focus behind a flat pane are sharp although
// the pane is not, and glass in focus is sharp although what is seen through it is not.
#pragma once

#include "film/first_hits.h"
#include "film/seen_points.h"
#include "render/prepare/sight.h"
#include "render/work_watch.h"

namespace dapple {

// Whether find_blur() looks at all.
bool has_blur(const Lens& lens, const FirstHits& first_hits);

// Sets the pixels' `blur_px`, and where there is blur, their `albedo` to the mean over it.
// Those that show a lamp's own face out of focus get a surface of their own (kSoftLamps). A
// step of work in blocks of four rows. Throws StoppedWork if `watch` stops the work.
void find_blur(const Sight& sight,
               const Lens& lens,
               const std::vector<Fixture>& fixtures,
               const FirstHits& first_hits,
               SeenPoints& points,
               WorkWatch& watch);

}  // namespace dapple
