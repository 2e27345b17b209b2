// What the lens sees, on a grid of pixels: the first surface, and the surface behind glass.
//
// Rays pass glass straight; mirrors end them.
#pragma once

#include <vector>

#include "plausible/staged_set.h"

namespace dapple {

struct SeenSpot {
    Direction direction{0, 0, 1};
    bool meets = false;  // false: nothing is there; the rest is not valid
    Thing first;         // what the lens sees first
    MaterialId first_material = kNoMaterial;
    float first_distance = 0;  // m, along the ray
    Thing thing;               // what is behind glass
    SurfacePoint at;           // there
};

struct SeenFrame {
    int across = 0;
    int down = 0;
    std::vector<SeenSpot> spots;  // rows from the top

    double share_of_spot() const { return 1.0 / (1.0 * across * down); }
};

SeenFrame see_frame(const StagedSet& set);

// What one position of the raster shows.
SeenSpot see_spot(const StagedSet& set, const Vec2& raster);

}  // namespace dapple
