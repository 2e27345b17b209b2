// The loop over passes, used for a frame and for the meters alone.
#pragma once

#include <functional>

#include "render/pass_limits.h"
#include "render/trace_walks.h"

namespace dapple {

// The steps of the loop, given by its caller.
struct PassSteps {
    // Traces one pass, unless the watch stops it. Returns the number of passes on the film.
    std::function<int()> trace;
    std::function<std::optional<double>()> noise_percent;        // of the film
    std::function<std::optional<double>()> clean_noise_percent;  // the same of the clean frame
    std::function<bool()> report;  // reports the progress; false stops the loop
};

// Traces passes until a limit is reached, `report` returns false or `watch` stops the work. At the
// beginning, `progress` holds the passes that are already on the film. After the first pass the
// watch gets the time limit, if it has none yet. Returns true if a report stopped the loop.
bool run_passes(const PassLimits& limits,
                const PassSteps& steps,
                const TotalCounts& total,
                WorkWatch& watch,
                Progress& progress);

}  // namespace dapple
