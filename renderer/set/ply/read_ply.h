// Reads a PLY model, ASCII or binary: positions, normals, colours and texture coordinates of its
// vertices; faces of any number of corners, perhaps with texture coordinates of their own, and
// strips of triangles.
//
// The model has one material, named like the file without its ending, or one for each picture that
// a comment TextureFile names. Colours of vertices show where there is no picture. Other elements
// are skipped. tinyply would fit, but Debian 12 does not have it.
#pragma once

#include <string>

#include "base/problems.h"
#include "set/models/model_description.h"

namespace dapple {

// The description has no triangles if there are problems.
ModelDescription read_ply(const std::string& path,
                          Problems& problems,
                          ModelParts parts = ModelParts::kAll);

// The same for bytes in memory; messages name them `path`.
ModelDescription read_ply_bytes(std::string_view bytes,
                                const std::string& path,
                                Problems& problems,
                                ModelParts parts = ModelParts::kAll);

}  // namespace dapple
