// Diffusers, flags and bounces: one flat sheet that faces `facing`.
#pragma once

#include "scene/scene.h"

namespace dapple {

// A rectangle of two triangles, or a disc as a fan of 96. Seen from the front with the world's up
// upwards, uv runs from (0, 0) at the lower left to (1, 1) at the upper right.
Mesh make_board(const Board& board);

}  // namespace dapple
