// Makes a mesh with shared vertices from triangles of a model description.
//
// Corners with the same position, uv and normal share a vertex. Missing normals are computed: in a
// smoothing group from the sum of the area vectors of the faces around a position, otherwise from
// the face alone. A mesh with neither normals nor smoothing groups in the file is flat and gets no
// normals. Triangles with two corners at one place are left out; thin triangles on a line are kept,
// because they close the seams of solids. The mesh has colours if one of its materials needs them.
#pragma once

#include <cstdint>
#include <vector>

#include "scene/models/model_units.h"
#include "scene/scene.h"
#include "set/models/model_description.h"

namespace dapple {

// `triangles` are indices into model.triangles. `materials` has one id for each of model.materials
// and a last one for faces without a material.
Mesh make_mesh(const ModelDescription& model,
               const std::vector<int32_t>& triangles,
               const ModelAxes& axes,
               const std::vector<MaterialId>& materials);

std::vector<int32_t> all_triangles(const ModelDescription& model);

}  // namespace dapple
