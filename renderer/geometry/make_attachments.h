// Barn doors and snoots, which cut a fixture's beam, and stands. Their thin black surfaces turn
// with the fixture's frame; only a stand is upright. Lengths in metres.
#pragma once

#include <optional>
#include <vector>

#include "scene/scene.h"

namespace dapple {

// Doors and snoots begin this far in front of the apparent source.
inline constexpr float kAttachmentGap = 2e-3F;  // m

// Half the width and height of the opening that barn doors close, m.
Vec2 barn_door_opening(const Fixture& fixture);
// The length of a leaf over the opening that it closes. The value is our own.
inline constexpr float kLeafPerOpening = 0.75F;  // (E63)

// Four leaves on hinges along the sides of the opening; empty without barn doors.
Mesh make_barn_doors(const Fixture& fixture, MaterialId material);

// A tube, and a plate that closes the gap between the tube and the housing; empty without a snoot.
Mesh make_snoot(const Fixture& fixture, MaterialId material);

// The top of a stand's rod: below the middle of the housing, or 50 mm behind a fixture without one.
Point stand_top(const Fixture& fixture);
struct StandRod {
    Point from{0}, to{0};
    float radius = 0;
};
// The rod of a stand, and its three feet from the outside in; none where the fixture is too low.
std::vector<StandRod> stand_rods(const Fixture& fixture, float floor);
// A rod and three feet on the floor at height `floor`; empty where the fixture is too low for one.
Mesh make_stand(const Fixture& fixture, float floor, MaterialId material);

// The heights of all surfaces straight below the point, m, in no order.
std::vector<float> surfaces_below(const std::vector<Mesh>& room, const Point& p);
// The height of the lowest surface straight below the point, m; nothing where there is none.
std::optional<float> floor_below(const std::vector<Mesh>& room, const Point& p);

}  // namespace dapple
