// Light that is left in its pixel, because its neighbours could not take it without showing it.
//
//   kept back: F - c,  c = min(F, 2 white, m (1 + N/10)), repeated with c in place of F    (E137)
// F: luminance, m: mean of c over the other pixels of the N = 25² around it. So one pixel adds at
// most a tenth to the light around it, and light above the display's range is not moved to where
// it would be seen.
//
// A speck is light that only one of n passes has found: F - t, t the mean of the other passes. Of
// what is kept back, specks are released and cleaned with the rest, as far as all specks of 49²
// pixels together add at most a twentieth to the other light there. A highlight that every pass
// has found stays.
//
// In the end no pixel gives more than a fiftieth of the light of the like surfaces within 17², or
// 2.5 + 5/n times their mean if that is more. So a speck on a thin thing does not light it up. Here
// light is divided by reflectance, and only what the passes agree on counts (sure_light.h).
#pragma once

#include "clean/plane.h"
#include "film/film.h"
#include "film/seen_points.h"

namespace dapple {

struct LightToHold {
    const Plane& light;        // the film's luminance, cd/m²
    const Plane& sure;         // sure_share()
    const Plane& reflectance;  // of what is seen, for luminance; above 0
};

// The share of each pixel's light that is left where it is.
Plane hold_back(const Film& film,
                const SeenPoints& seen,
                const LightToHold& all,
                double white_luminance);

}  // namespace dapple
