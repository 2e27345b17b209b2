// Traces the pilot walks that find where all photons are kept (transport/merge_cells.h).
#pragma once

#include "film/first_hits.h"
#include "render/prepare/light_pilot.h"
#include "transport/merge_cells.h"

namespace dapple {

// `radius`: of photon merging in the first pass, m.
MergeCells find_merge_cells(const Setup& setup,
                            const FirstHits& first_hits,
                            const LightPilot& pilot,
                            float radius);

}  // namespace dapple
