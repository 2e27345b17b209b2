// Triangles of an OBJ description to a mesh whose corners share vertices.
//
// A vertex is a (position, uv, normal) that corners have in common. Normals that the file leaves
// out are made: within a smoothing group as the sum of the faces' area vectors around a position,
// without one from the face alone. A mesh that has neither given normals nor smoothing groups has
// no normals: flat. Triangles with two corners at one place are left out; thin ones that lie on a
// line stay, as they close the seams of solids.
#pragma once

#include <cstdint>
#include <vector>

#include "scene/models/model_units.h"
#include "scene/scene.h"
#include "set/obj/obj_description.h"

namespace dapple {

// `triangles` are indices into obj.triangles. `materials` has one id for each of obj.materials and
// a last one for faces without a material.
Mesh make_mesh(const ObjDescription& obj,
               const std::vector<int32_t>& triangles,
               const ModelAxes& axes,
               const std::vector<MaterialId>& materials);

std::vector<int32_t> all_triangles(const ObjDescription& obj);

}  // namespace dapple
