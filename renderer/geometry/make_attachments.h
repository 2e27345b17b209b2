// What hangs in front of a fixture and cuts its beam, and what holds it up. Thin black bodies, in
// metres, in the fixture's own frame turned with it.
#pragma once

#include <optional>

#include "scene/scene.h"

namespace dapple {

// In front of the apparent source, where doors and snoots begin.
inline constexpr float kAttachmentGap = 2e-3F;  // m

// Half the width and height of the front that barn doors close, m.
Vec2 barn_door_opening(const Fixture& fixture);
// Ours: leaves are as long as three quarters of the opening that they close.
inline constexpr float kLeafPerOpening = 0.75F;

// Four leaves on hinges along the sides of the opening; empty without barn doors.
Mesh make_barn_doors(const Fixture& fixture, MaterialId material);

// A tube with a plate that closes the way between it and the housing; empty without a snoot.
Mesh make_snoot(const Fixture& fixture, MaterialId material);

// A rod and three feet that stand on the floor at height `floor`; empty where the fixture is lower.
Mesh make_stand(const Fixture& fixture, float floor, MaterialId material);

// The height of the lowest surface straight below, m; none where there is nothing.
std::optional<float> floor_below(const std::vector<Mesh>& room, const Point& p);

}  // namespace dapple
