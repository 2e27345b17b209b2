// Meter walks: from a receptor into the room, as camera walks go from a pixel. The lamps are asked
// for their light at the receptor itself, too.
#pragma once

#include <span>

#include "transport/light_walk.h"

namespace dapple {

// Walk number `index` of a meter in the stage's pass. Adds to `by_fixture` (one per fixture) the
// luminance in cd/m² that it finds, at the pass's wavelengths, per unit of the group spectra. The
// reading is its mean over the pass's walks, times the receptor's lux_per_walk().
void trace_meter_walk(
    const Stage& stage, int meter, int index, std::span<Spectrum> by_fixture, WalkCounts& counts);

}  // namespace dapple
