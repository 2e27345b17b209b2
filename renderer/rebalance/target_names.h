// The lights of a film by the names that people write in targets. Private to this folder.
//
// A name is first looked for as it is written. If nothing has it, the one thing counts in whose
// name all its words stand: "face" for "face, to camera".
#pragma once

#include <optional>
#include <string>

#include "rebalance/target.h"

namespace dapple {

// A meter's light or a region's; a name of both is the meter, or with `prefers_region` the region.
std::optional<LightSpot> find_spot(const FilmRecord& film,
                                   const std::string& name,
                                   bool prefers_region);

struct SpotPair {
    LightSpot light, against;
};

// "A:B", "A to B", "A:B at PLACE". A and B are two meters or two fixtures, PLACE a meter, a region
// or the figure. The fixtures are taken at the place, else each at the meter that gets most of its
// light. With several meters or regions of the figure, "the figure" is for each fixture the one
// that gets most of it.
std::optional<SpotPair> find_pair(const FilmRecord& film, const std::string& text);

// Why a text names no light: "; did you mean face?", or which names there are.
std::string name_advice(const FilmRecord& film, const std::string& text);

}  // namespace dapple
