// How far a thing or the camera must move until the thing is out of the frame.
#pragma once

#include <optional>

#include "geometry/thing.h"
#include "scene/in_frame.h"
#include "scene/scene.h"

namespace dapple {

struct MovesOut {
    // The shortest moves, in whole centimetres. Nothing if every move would end outside the room.
    // A fixture on a stand only moves sideways.
    std::optional<Move> of_thing, of_camera;
};

MovesOut find_moves_out(const Scene& scene, const Thing& thing);

// The direction of a move in the world. Sideways is along the frame's lower edge.
Direction direction_of(MoveWay way, const Camera& camera);

}  // namespace dapple
