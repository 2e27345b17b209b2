// Light that the passes agree on. A way that the walks hardly ever find makes a pixel many times
// too bright in the one pass that finds it. Where such light cannot be cleaned (hold_back.h), the
// clean frame does not show it.
//
//   shown: f = ((n - 1) s + min(b, 3 s)) / n,  s = t min(1, 2 max(0, 1 - e / t))           (E138)
// n passes, b the brightest of them, t the mean of the others and e its standard error. So what two
// of many passes have found is not shown either; what most passes have found is.
//
// Few passes can agree on a bright pixel by chance. So where at least half of the eight pixels
// around it are alike, f/ρ is at most
//   (2 + n/4) ⟨f/ρ⟩ (1 + (0.1 m/E)⁴)                                                      (E139)
// ρ: reflectance; ⟨ ⟩: mean of the eight, weighted by likeness; m: mean of all passes, E its
// standard error.
#pragma once

#include "clean/plane.h"
#include "film/film.h"
#include "film/seen_points.h"

namespace dapple {

// The share of each pixel's light that the passes agree on. `light`: the film's luminance, cd/m².
// All of it where a lamp's own face is seen: that is known without the passes.
Plane sure_share(const Film& film,
                 const SeenPoints& seen,
                 const Plane& light,
                 const Plane& reflectance);

}  // namespace dapple
