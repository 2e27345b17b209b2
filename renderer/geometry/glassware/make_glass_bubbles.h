// Air bubbles in glass: small ellipsoids, drawn long on their way up as the glass was.
//
// Each is a closed solid of air whose higher priority hollows out the glass around it. Diameters
// lie between a third and the whole of the largest, small ones being more common; lengths are up to
// 1.8 times the diameter. They keep within the wall: on straight pieces half way through it.
#pragma once

#include "geometry/glassware/make_glass_forms.h"

namespace dapple {

SolidMesh make_bubbles(const GlassObject& object);

}  // namespace dapple
