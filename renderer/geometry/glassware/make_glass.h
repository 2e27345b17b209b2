// Made glassware: from a glass object's few numbers to closed triangle meshes in the world.
//
// Each solid is one closed mesh. Normals point out of the solid; on a cavity's wall that is into
// the cavity. Vessels, balls and rods are solids of revolution whose outlines are lines and arcs
// (make_glass_forms.h). Their normals are those of the exact surface, not averages of faces
// (make_glass_lathe.h says how fine the mesh is). The object's frame has y up and its origin at the
// centre of the base. The object is tilted about its own x, turned about y, then moved.
#pragma once

#include <vector>

#include "scene/scene.h"

namespace dapple {

// The glass first; then, where the object is filled, the liquid (make_glass_liquid.h); then its
// bubbles, all in one mesh (make_glass_bubbles.h). glass_problem() of scene/glass/glass_limits.h
// must find no problem with the object.
std::vector<Mesh> make_glass(const GlassObject& object, const Scene& scene);

}  // namespace dapple
