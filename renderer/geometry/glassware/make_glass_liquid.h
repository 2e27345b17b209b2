// The body of liquid in a vessel: the cavity grown by half the wall, cut by a level plane.
//
// Its side and bottom are inside the glass, so that the two never share a surface. The glass fills
// the overlap, because it has the higher priority. The top is level in the world however the vessel
// is tilted: its plane crosses the vessel's axis at the given share of the inner height (from the
// lowest place of the cavity to where the rim's rounding begins), or lower where the liquid would
// spill over the rim. Frame and units: the object's own, m.
#pragma once

#include "geometry/glassware/make_glass_forms.h"

namespace dapple {

// `up` is the world's up in the object's frame. Empty when nothing stays in the vessel.
SolidMesh make_liquid_body(const Vessel& vessel, double level, const glm::dvec3& up);

// The part of a closed mesh where dot(up, p) < height, closed by a flat lid with normal `up`.
SolidMesh cut_level(const SolidMesh& solid, const glm::dvec3& up, double height);

}  // namespace dapple
