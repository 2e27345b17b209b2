// What a light meter must read with each fixture alone, and with all lights on.
#pragma once

#include <string>
#include <vector>

#include "film/meter_film.h"
#include "scene/day_sheet.h"

namespace dapple {

// For every meter: all lights together first, then each fixture and window. `passes` is the number
// of passes behind the readings. An f-number is only given where the light is known to a third of
// a stop (E148).
std::vector<MeterTarget> make_meter_targets(const std::vector<Reading>& readings,
                                            int passes,
                                            const Scene& scene);

// "f/4 + 3/10  500 lx", "no light", "not known yet, about 20 lx"; with ± in stops where it changes
// the tenths.
std::string target_words(const MeterTarget& target);

}  // namespace dapple
