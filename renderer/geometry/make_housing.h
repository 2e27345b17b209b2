// The body of a fixture, which the camera sees and which blocks light behind the source.
//
// A spot or bare fixture has a can along its axis, a panel a box behind its face. The front is a
// little behind the apparent source, so that no light starts inside or on it. Lengths in metres.
#pragma once

#include "scene/scene.h"

namespace dapple {

inline constexpr float kHousingGap = 0.5e-3F;    // m, behind a flat source
inline constexpr float kBareHousingGap = 1e-3F;  // m, behind the ball of a bare source
inline constexpr float kPanelRim = 20e-3F;       // m, by which the box is wider than the face
inline constexpr float kHousingLength = 30e-3F;  // m, where none is given

// A closed mesh; empty when the housing's diameter is 0.
Mesh make_housing(const Fixture& fixture, MaterialId material = kNoMaterial);

}  // namespace dapple
