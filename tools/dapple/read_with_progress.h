// Reads the meters of a set, with a progress line and a clean end at Ctrl-C.
#pragma once

#include "load_set.h"
#include "render/read_meters.h"

namespace dapple {

// 1 %, or a minute, if the user gave no limit.
void set_default_limits(MeterOptions& options);

// Throws StoppedWork if the work is stopped within the first pass.
MeterResult read_with_progress(const LoadedSet& set, MeterOptions options);

}  // namespace dapple
