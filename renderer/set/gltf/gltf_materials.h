// The materials of a glTF file: base colour, its picture, and holes. Metal and gloss are not read,
// as with MTL; give them in [[surface]].
#pragma once

#include <array>
#include <string>
#include <vector>

#include "set/gltf/gltf_buffers.h"
#include "set/models/model_description.h"
#include "set/models/model_report.h"

namespace dapple {

// Where a material's picture lies on the mesh: KHR_texture_transform.
struct GltfPicturePlace {
    int64_t uv_set = 0;  // TEXCOORD_0 and so on
    std::array<double, 2> offset{0, 0};
    std::array<double, 2> scale{1, 1};
    double turn = 0;  // rad

    // From a texture coordinate with v downwards to one with v upwards.
    std::array<float, 2> placed(double u, double v) const;
};

struct GltfMaterials {
    std::vector<ModelMaterial> list;
    std::vector<GltfPicturePlace> places;  // as many
};

GltfMaterials read_gltf_materials(const GltfValue& root,
                                  GltfBuffers& buffers,
                                  const std::string& path,
                                  ModelReport& report);

}  // namespace dapple
