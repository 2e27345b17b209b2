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
// or the figure. The fixtures are taken at the place, else each at its own meter
// (develop/pair_meters.h). "key" and "fill" are fixtures also where none has the word in its name:
// those that `judge` takes (judge/key_and_fill.h). "The figure" with several meters is for each
// fixture its own of them; with several regions it is the one that gets most of its light.
std::optional<SpotPair> find_pair(const FilmRecord& film, const std::string& text);

// Why a text names no light: "; did you mean face?", or which names there are.
std::string name_advice(const FilmRecord& film, const std::string& text);

}  // namespace dapple
