// In which order to build the light: background, figure, accents.
#pragma once

#include <vector>

#include "scene/day_sheet.h"

namespace dapple {

// The rule is our own (common practice, no source). A fixture whose axis passes within 0.6 m of a
// figure lights the figure; if it also points back at the camera, it is an accent. All others
// light the background. Within a stage the one with the most lumens comes first. In a set without a
// [[stand_in]], meters more than 0.5 m above the floor count as figures.
std::vector<BuildStep> find_build_order(const Scene& scene, const DaySheet& sheet);

// The rule, as the sheet prints it.
inline constexpr const char* kBuildRule =
    "Fixtures whose axis passes within 0.6 m of a figure (without a [[stand_in]]: of a meter above "
    "0.5 m) light the figure; those of them that point back at the camera are accents; all others "
    "are background. Within each the strongest first. Look at each stage before you add the next.";

}  // namespace dapple
