// The room as the day sheet draws it.
#pragma once

#include "scene/day_sheet.h"

namespace dapple {

// Whether the side view shows z, because the camera looks along z rather than x: from the side of
// the camera's way depth can be seen. Of a camera that looks straight down, because the set is
// longer in z.
bool side_shows_z(const Scene& scene, const std::optional<RoomBox>& box);

DrawnRoom draw_room(const Scene& scene, const std::optional<RoomBox>& box, bool shows_z);

}  // namespace dapple
