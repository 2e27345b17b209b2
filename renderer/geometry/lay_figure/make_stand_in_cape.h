// A cape round the lay figure's shoulders: one sheet, open at the neck and at the hem.
//
// Its sections are level ellipses. From the collar they widen over the shoulders by a quarter of an
// ellipse, then hang with folds that deepen towards the hem:
//   over the shoulders  y = 0.800 + 0.062 cos α, half axes (0.050, 0.050) + (0.115, 0.048) sin α
//   below               half axes (0.165 + 0.030 s², 0.098 + 0.040 s²), s from 0 to 1 at the hem,
//                       times 1 + 0.05 s sin 11φ                                          (E120)
// in shares of the figure's height, on the standing trunk. The shape is our own.
#pragma once

#include "scene/scene.h"

namespace dapple {

// `hem`: height of the lower edge, in the same shares.
Mesh make_cape(float hem);

}  // namespace dapple
