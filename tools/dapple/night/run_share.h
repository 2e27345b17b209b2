// Renders one share of a night (variants/night_shares.h).
#pragma once

#include "night/night_plan.h"
#include "night/run_night.h"
#include "variants/night_shares.h"

namespace dapple {

// The units of a share of a night to `passes` passes of each variant.
std::vector<ShareUnit> plan_share(const NightPlan& plan, int64_t passes, const Share& share);

// Goes on with what the share's folder holds, and keeps its passes; pictures are made when the
// shares are merged. The caller holds the lock of the share's folder. With an end by the clock,
// units get a few passes each at first, as in a night that is not shared out. Returns false if it
// was stopped before its end.
bool run_share(const NightPlan& plan,
               const NightOptions& options,
               const NightEnd& end,
               const Share& share);

}  // namespace dapple
