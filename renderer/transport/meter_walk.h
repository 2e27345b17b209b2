// Meter walks: from a receptor into the room, like camera walks from a pixel. Next-event estimation
// and sheet sampling are also done at the point of the receptor itself.
#pragma once

#include <span>

#include "transport/light_walk.h"

namespace dapple {

// Traces walk number `index` of a meter in the stage's pass. Adds to `by_fixture` (one per fixture)
// the luminance in cd/m² that the walk finds, at the pass's wavelengths, per unit of the group
// spectra. The reading is the mean over the pass's walks, times the receptor's lux_per_walk().
void trace_meter_walk(
    const Stage& stage, int meter, int index, std::span<Spectrum> by_fixture, WalkCounts& counts);

}  // namespace dapple
