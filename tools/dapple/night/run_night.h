// Renders the variants of a night, turn by turn, until its end.
#pragma once

#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "night/night_files.h"
#include "render/render_options.h"

namespace dapple {

struct NightOptions {
    std::string folder;
    NightLimits limits;
    // By the clock on the wall, so that a laptop that slept knows the time.
    std::optional<std::chrono::system_clock::time_point> until;
    RenderOptions render;
};

// Goes on with what the folder holds. Every turn leaves its variant's results and all files of the
// night on the disk. Returns false if it was stopped by Ctrl-C.
bool run_night(const NightPlan& plan,
               const NightOptions& options,
               std::vector<NightVariantState>& states);

// Makes the results of the passes that the night's folder holds, without making any pass. Returns
// false if it was stopped.
bool develop_night(const NightPlan& plan,
                   const NightOptions& options,
                   std::vector<NightVariantState>& states);

}  // namespace dapple
