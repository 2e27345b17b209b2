// What each pixel sees, for the clean frame.
#pragma once

#include "film/first_hits.h"
#include "film/seen_points.h"
#include "render/prepare/setup.h"

namespace dapple {

SeenPoints find_seen_points(const Setup& setup, const FirstHits& first_hits);

}  // namespace dapple
