// What each pixel sees, for the clean frame.
#pragma once

#include "film/fine_points.h"
#include "film/first_hits.h"
#include "film/seen_points.h"
#include "render/prepare/setup.h"
#include "render/render_options.h"
#include "render/work_watch.h"

namespace dapple {

// Throws StoppedWork if `watch` stops the work.
SeenPoints find_seen_points(const Setup& setup, const FirstHits& first_hits, WorkWatch& watch);

// What the pixels see of a frame that has `step` times as many across. `kept`: of an earlier frame,
// used again if that had the same size. Throws as the above.
FinePoints find_fine_points(const Setup& setup, int step, const KeptSight& kept, WorkWatch& watch);

}  // namespace dapple
