// A cape around the lay figure's shoulders: one sheet, open at the neck and at the hem.
//
// Its level sections are ellipses. From the collar they widen over the shoulders along a quarter of
// an ellipse. Below, the cape hangs in folds that deepen towards the hem:
//   over the shoulders  y = 0.800 + 0.062 cos α, half axes (0.050, 0.050) + (0.115, 0.048) sin α
//   below               half axes (0.165 + 0.030 s², 0.098 + 0.040 s²), s from 0 to 1 at the hem,
//                       times 1 + 0.05 s sin 11φ                                           (E64)
// in shares of the figure's height, on the standing trunk. The shape is our own.
#pragma once

#include "scene/scene.h"

namespace dapple {

// `hem`: height of the lower edge, as a share of the figure's height.
Mesh make_cape(float hem);

}  // namespace dapple
