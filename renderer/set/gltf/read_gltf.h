// Reads a glTF 2.0 model, .gltf with its buffers beside it or inside, or .glb: the meshes of its
// scene where its nodes put them, with base colours, pictures, holes and colours of vertices.
//
// By the standard (Khronos, glTF 2.0, 2021; ISO/IEC 12113:2022) lengths are in metres, y is up, and
// colours are linear but those of pictures. Metal and gloss, lights, cameras, poses and movement
// are not read. Compressed meshes are refused.
//
// tinygltf is not used here: it checks neither what indices refer to nor that nodes form a tree,
// says not where in the file a mistake is, and decodes pictures by itself.
#pragma once

#include <string>
#include <string_view>

#include "base/problems.h"
#include "set/models/model_description.h"

namespace dapple {

// The description has no triangles if there are problems.
ModelDescription read_gltf(const std::string& path,
                           Problems& problems,
                           ModelParts parts = ModelParts::kAll);

// The same for bytes in memory; messages name them `path`, and the files that they name are looked
// for in the folder of `path`.
ModelDescription read_gltf_bytes(std::string_view bytes,
                                 const std::string& path,
                                 Problems& problems,
                                 ModelParts parts = ModelParts::kAll);

}  // namespace dapple
