// Which column a thing stands on: a shelf, a table, a box.
#pragma once

#include "scene/scene.h"

namespace dapple {

inline constexpr float kStandsOn = 0.02F;  // m, between a thing and the surface that it stands on

// The column on whose top the base stands, to kStandsOn; null: none.
const Column* column_under(const Scene& scene, const Point& base);

}  // namespace dapple
