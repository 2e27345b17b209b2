// Closed boxes with lamps, glass and sheets of all kinds, made from a number. A meter covers every
// surface that absorbs light, so that the absorbed light can be compared with the lamps' lumens.
#pragma once

#include <vector>

#include "published/meter_sets.h"

namespace dapple::published {

struct RandomSet {
    Scene scene;                 // with its meters
    std::vector<Weighted> kept;  // absorbed flux, by walls, sheets and the faces of lamps
    double lumens = 0;
};

RandomSet make_random_set(uint64_t number);

}  // namespace dapple::published
