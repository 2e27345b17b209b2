// How what one pixel sees fits what another sees, for light that is brought from one to the other.
// Private to this folder.
#pragma once

#include "film/seen_points.h"

namespace dapple {

bool is_behind_glass(const SeenPoint& seen);
bool is_lamp_face(const SeenPoint& seen);
// Whether its light is that which falls on it, times its reflectance.
bool is_plain_surface(const SeenPoint& seen);

// As likeness(), also between lamps' faces, and where nothing is seen.
float fit_of(const SeenPoint& a, const SeenPoint& b);
// Whether one of the points lies on the plane of the other.
bool is_on_one_plane(const SeenPoint& a, const SeenPoint& b);
// How much the light at `b` is worth for `a`, of surfaces that are not alike.
float light_in_common(const SeenPoint& a, const SeenPoint& b);

}  // namespace dapple
