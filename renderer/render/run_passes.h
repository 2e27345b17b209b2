// The loop over passes, the same for a frame and for meters alone.
#pragma once

#include <functional>

#include "render/pass_limits.h"
#include "render/trace_walks.h"

namespace dapple {

// What the loop does for its caller.
struct PassSteps {
    std::function<int()> trace;  // traces one pass; returns the passes on the film
    std::function<std::optional<double>()> noise_percent;  // of the film
    std::function<bool()> report;  // tells the caller's user; false stops the loop
};

// Traces passes until one of the limits is reached or the report says stop. `progress` holds the
// passes already on the film at the beginning. True if the report stopped it.
bool run_passes(const PassLimits& limits,
                const PassSteps& steps,
                const TotalCounts& total,
                Progress& progress);

}  // namespace dapple
