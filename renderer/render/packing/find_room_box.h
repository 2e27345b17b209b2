// Where the walls and the floor are that a tape measures from.
#pragma once

#include <optional>

#include "geometry/world.h"
#include "scene/day_sheet.h"

namespace dapple {

// The inner faces of the walls: of a box room, the box; of a model, the farthest surfaces that rays
// along the axes meet from the camera, the fixtures, the meters and the figures, which are all in
// the room. Nothing if the set has no room, or one that is open to a side.
std::optional<RoomBox> find_room_box(const Scene& scene, const World& world);

// Whether the room is one of size_m.
bool is_plain_box_room(const Scene& scene);

// The points in the room from which it is measured.
std::vector<Point> places_in_room(const Scene& scene);

// The height of the floor under a point: the lowest surface below it that is not below the room's
// box. Of floor boards up to 5 cm thick, the top. Nothing where there is no floor.
std::optional<float> floor_under(const Scene& scene,
                                 const std::optional<RoomBox>& box,
                                 const Point& p);

}  // namespace dapple
