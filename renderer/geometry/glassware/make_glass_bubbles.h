// Air bubbles in glass: small ellipsoids, stretched in the direction in which the glass was drawn.
//
// Each is a closed solid of air with a higher priority than the glass, so that air fills it.
// Diameters are between a third and the whole of the largest; small ones are more common. Lengths
// are up to 1.8 times the diameter. In a vessel, bubbles are half way through the wall, on straight
// pieces of its outline.
#pragma once

#include "geometry/glassware/make_glass_forms.h"

namespace dapple {

SolidMesh make_bubbles(const GlassObject& object);

}  // namespace dapple
