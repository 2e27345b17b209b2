// The loop over passes, used for a frame and for the meters alone.
#pragma once

#include <functional>

#include "render/pass_limits.h"
#include "render/trace_walks.h"

namespace dapple {

// The steps of the loop, given by its caller.
struct PassSteps {
    std::function<int()> trace;  // traces one pass; returns the number of passes on the film
    std::function<std::optional<double>()> noise_percent;        // of the film
    std::function<std::optional<double>()> clean_noise_percent;  // the same of the clean frame
    std::function<bool()> report;  // reports the progress; false stops the loop
};

// Traces passes until a limit is reached or `report` returns false. At the beginning, `progress`
// holds the passes that are already on the film. Returns true if `report` stopped the loop.
bool run_passes(const PassLimits& limits,
                const PassSteps& steps,
                const TotalCounts& total,
                Progress& progress);

}  // namespace dapple
