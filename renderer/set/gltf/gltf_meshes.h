// Makes triangles of the meshes of a glTF file.
#pragma once

#include <array>
#include <string>
#include <vector>

#include "set/gltf/gltf_buffers.h"
#include "set/gltf/gltf_materials.h"
#include "set/gltf/gltf_nodes.h"
#include "set/models/model_description.h"
#include "set/models/model_report.h"

namespace dapple {

class GltfMeshes {
  public:
    // Triangles are added to `model`, which has the materials.
    GltfMeshes(const GltfValue& root,
               GltfBuffers& buffers,
               const std::vector<GltfPicturePlace>& places,
               ModelDescription& model,
               ModelReport& report)
        : root_(root), buffers_(buffers), places_(places), model_(model), report_(report) {}

    void add(const GltfInstance& instance);

  private:
    struct Primitive {
        GltfValue given;
        int64_t mode = 4;  // 4 triangles, 5 a strip, 6 a fan
        int64_t vertices = 0;
        int32_t material = -1;
        int32_t first = 0;  // vertex, in the model
        bool has_normals = false;
        bool has_uvs = false;
        int32_t first_normal = 0;
        int32_t first_uv = 0;
        bool is_mirrored = false;
    };

    void add_primitive(const GltfValue& given, const GltfPlacement& placement);
    void add_vertices(Primitive& primitive, const GltfPlacement& placement);
    void add_normals(Primitive& primitive, const GltfPlacement& placement);
    void add_uvs(Primitive& primitive);
    void add_colours(const Primitive& primitive);
    void add_triangles(const Primitive& primitive);
    void add_triangle(const Primitive& primitive, std::array<int64_t, 3> corners);
    std::optional<GltfAccessor> attribute(const Primitive& primitive,
                                          const std::string& name,
                                          int least,
                                          int most);

    GltfValue root_;
    GltfBuffers& buffers_;
    const std::vector<GltfPicturePlace>& places_;
    ModelDescription& model_;
    ModelReport& report_;
};

}  // namespace dapple
