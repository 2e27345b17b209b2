// The haze between the lens and the surface that each pixel sees first.
#pragma once

#include "clean/plane.h"
#include "film/first_hits.h"
#include "materials/haze_medium.h"
#include "transport/lens.h"

namespace dapple {

// At the centre of each pixel.
struct SeenHaze {
    Plane length;  // m from the lens to the end of the haze; 0 without any
    Plane share;   // of the light that the haze scatters; never below 1e-6
};

SeenHaze find_seen_haze(const HazeMedium& haze, const Lens& lens, const FirstHits& first_hits);

}  // namespace dapple
