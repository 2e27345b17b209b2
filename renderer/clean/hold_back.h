// Light that is left in its pixel, because its neighbours could not take it without showing it.
//
//   kept back: F - c,  c = min(F, 2 white, m (1 + N/10)), repeated with c in place of F    (E132)
// F: luminance, m: mean of c over the other pixels of the N = 25² around it. So one pixel adds at
// most a tenth to the light around it, and light above the display's range is not moved to where
// it would be seen.
//
// A speck is light that only one of n passes has found: F - t, t the mean of the other passes. Of
// what is kept back, specks are released and cleaned with the rest, as far as all specks of 49²
// pixels together add at most a twentieth to the other light there. A highlight that every pass
// has found stays.
#pragma once

#include "clean/plane.h"
#include "film/film.h"

namespace dapple {

// The share of each pixel's light that is left where it is. `light`: the film's luminance, cd/m².
Plane hold_back(const Film& film, const Plane& light, double white_luminance);

}  // namespace dapple
