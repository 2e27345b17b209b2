// Made glassware: from a glass object's few numbers to closed triangle meshes in the world.
//
// One closed mesh per solid; normals point out of it, into the cavity on the inner wall. Vessels,
// balls and rods are turned from lines and arcs (make_glass_forms.h) with the surface's own
// normals, not face averages (make_glass_lathe.h says how fine). The object's frame has y up and
// its origin at the centre of the base; it is tilted about its own x, turned about y, then moved.
#pragma once

#include <vector>

#include "scene/scene.h"

namespace dapple {

// The glass first; then, where the object is filled, the liquid (make_glass_liquid.h); then its
// bubbles, all in one mesh (make_glass_bubbles.h). The object must be one that glass_problem() of
// scene/glass/glass_limits.h has nothing to say about.
std::vector<Mesh> make_glass(const GlassObject& object, const Scene& scene);

}  // namespace dapple
