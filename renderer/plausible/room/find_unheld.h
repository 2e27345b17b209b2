// Figures that float, and fixtures in the frame that nothing holds.
#pragma once

#include "plausible/light/seen_frame.h"

namespace dapple {

Doubts find_floating_figures(const StagedSet& set);

// Only fixtures that fill a quarter of a per cent of the frame or more. A fixture within 0.35 m of
// a surface is clamped to it, and a bare bulb hangs on its cord.
Doubts find_unheld_fixtures(const StagedSet& set, const SeenFrame& frame);

}  // namespace dapple
