// Stands, clamps, weights, cables, batteries and frames: what the set needs, and what of it the
// user's kit has.
//
// Each need takes the smallest piece that is large enough, first of those that the user owns, then
// of the kit's typical ones. What holds a thing up is not in the set file, so our own rules decide:
// common practice, without a source.
#pragma once

#include <string>
#include <vector>

#include "render/packing/find_cables.h"
#include "scene/day_sheet.h"
#include "scene/gear.h"

namespace dapple {

// The stands, clamps, weights and safety bonds for everything in the air, then the frames for
// cloths, then the cables.
std::vector<CarryItem> list_supports(const Scene& scene,
                                     const DaySheet& sheet,
                                     const std::vector<CableRun>& cables,
                                     const std::vector<Gear>& gear);

// How many of that kit entry the user owns; none: the kit does not say.
std::optional<int> owned(const std::vector<Gear>& gear,
                         const std::string& kind,
                         const std::string& name);
// The same for all entries of a kind together.
std::optional<int> owned(const std::vector<Gear>& gear, const std::string& kind);

}  // namespace dapple
