// What each pixel sees, for the clean frame.
#pragma once

#include "film/first_hits.h"
#include "film/seen_points.h"
#include "render/prepare/setup.h"
#include "render/work_watch.h"

namespace dapple {

// Throws StoppedWork if `watch` stops the work.
SeenPoints find_seen_points(const Setup& setup, const FirstHits& first_hits, WorkWatch& watch);

}  // namespace dapple
