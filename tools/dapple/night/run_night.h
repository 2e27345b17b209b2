// Renders the variants of a night, turn by turn, until its end.
#pragma once

#include <string>
#include <vector>

#include "night/night_files.h"
#include "render/render_options.h"
#include "variants/night_end.h"

namespace dapple {

struct NightOptions {
    std::string folder;
    NightLimits limits;
    RenderOptions render;
    std::string lit_through;  // the thing whose light a search measures; "": all light
};

// How a night ended.
struct NightOutcome {
    bool interrupted = false;  // by Ctrl-C
    size_t failed = 0;         // variants
};

// Goes on with what the folder holds. Every turn leaves its variant's results and all files of the
// night on the disk, and long turns keep their passes on the way. A variant that fails is told, and
// the others go on. Throws DiskError if the disk is full; what is there stays.
NightOutcome run_night(const NightPlan& plan,
                       const NightOptions& options,
                       const NightEnd& end,
                       std::vector<NightVariantState>& states);

// Makes the results of the passes that the night's folder holds, without making any pass.
NightOutcome develop_night(const NightPlan& plan,
                           const NightOptions& options,
                           std::vector<NightVariantState>& states);

}  // namespace dapple
