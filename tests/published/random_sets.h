// Closed boxes with lamps, glass and sheets of all kinds in them, made from a number: everything
// that keeps light stands under a meter, so that their lumens can be found again.
#pragma once

#include <vector>

#include "published/meter_sets.h"

namespace dapple::published {

struct RandomSet {
    Scene scene;                 // with its meters
    std::vector<Weighted> kept;  // the flux that stays: walls, absorbing sheets, faces of lamps
    double lumens = 0;
};

RandomSet make_random_set(uint64_t number);

}  // namespace dapple::published
