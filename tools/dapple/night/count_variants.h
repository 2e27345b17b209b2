// How many variants of a night are done, begun, waiting and failed.
#pragma once

#include <vector>

#include "night/night_files.h"
#include "night/night_progress.h"

namespace dapple {

// Fills in the counts. A variant made by rebalancing is as far as its film.
void count_variants(const NightPlan& plan,
                    const std::vector<NightVariantState>& states,
                    const NightLimits& limits,
                    NightProgress& progress);

}  // namespace dapple
